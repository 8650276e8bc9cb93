import type { KnownCampaign, KnownImage, KnownInstrument } from '../../execution/midway/known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import { suppliesOf } from '../../campaign/supplies.js';
import { microseconds } from '../../kernel/clock.js';
import { allocationText } from '../../scenario/exposure.js';
import { type Sample, sampleText } from '../../scenario/samples.js';
import { suggestion } from '../../scenario/nearest.js';
import type { TextFault } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import type { Cell } from '../../analysis/sheet.js';
import { isMissing } from '../../analysis/missing.js';
import { readMoment } from './moment.js';
import { type Entry, type Table, tableOf } from './state-table.js';
import { imageName } from './place-names.js';
import { isUsed } from '../../execution/midway/supplies.js';
import { IMAGE_WORDS, isNone, plain, STANDING_WORDS } from './state-words.js';
import { readTips } from './read-tips.js';

export type StateReading =
  | { readonly ok: true; readonly known: KnownCampaign; readonly notes: readonly string[] }
  | { readonly ok: false; readonly faults: readonly TextFault[] };

/** Reads how a campaign stands from a table under STATE_COLUMNS; everything that is wrong is said at once, with its place. */
export function readState(model: CampaignModel, text: string): StateReading {
  const read = tableOf(text, model.settings.instruments);
  if (!read.ok) return read;
  const { table } = read;
  const reader = new StateReader(model, table);
  const known = reader.read();
  return table.faults.length > 0 || known === null
    ? { ok: false, faults: [...table.faults].sort((a, b) => a.line - b.line || a.column - b.column) }
    : { ok: true, known, notes: reader.notes };
}

class StateReader {
  readonly notes: string[] = [];
  /** Images that are being scanned now. */
  private readonly scanned = new Set<number>();

  constructor(
    private readonly model: CampaignModel,
    private readonly table: Table,
  ) {}

  read(): KnownCampaign | null {
    const now = this.now();
    const images = this.images();
    const { instruments } = this.model.settings;
    const standing = Array.from({ length: instruments }, (_, number) => this.instrument(number, images, now ?? 0));
    const grantedUntil = this.grantedUntil(now ?? 0);
    return now === null ? null : { now, grantedUntil, images, instruments: standing };
  }

  private now(): number | null {
    const entry = this.table.one('now', 0);
    if (entry === null) {
      this.table.fault({ line: 1, column: 1 }, 'no row says what time it is: `now,,Tue 14:00` is wanted');
      return null;
    }
    const { text, place } = entry.value;
    const moment = readMoment(this.model, text);
    if (moment.ok) return moment.value;
    this.table.fault(place, moment.message);
    return null;
  }

  private grantedUntil(now: number): number | null {
    const entry = this.table.one('granted left', 0);
    const { bookings, allocationEnd } = this.model;
    if (entry === null) return allocationEnd;
    const { text, place } = entry.value;
    if (isNone(text)) return now;
    const left = allocationText().safeParse(text);
    if (!left.success) {
      this.table.fault(place, left.error.issues[0].message);
      return null;
    }
    return left.data.unit === 'hour'
      ? bookings.afterOpen(now, microseconds(left.data.amount * 3600))
      : bookings.sessionEnd(now, left.data.amount);
  }

  private images(): readonly KnownImage[] {
    const { images, settings } = this.model;
    const found = new Map<number, KnownImage>();
    const names = images.map((image) => imageName(this.model, image));
    for (const entry of this.table.all('image')) {
      const { text, place } = entry.which;
      const number = /^\d+$/u.test(text) ? Number(text) - 1 : names.findIndex((name) => plain(name) === plain(text));
      if (!(number >= 0 && number < images.length)) {
        this.table.fault(place, `the plan has no image ${show(text)}${suggestion(text, names.slice(0, 200))}`);
        continue;
      }
      if (found.has(number)) this.table.fault(place, `image ${show(text)} stands here for the second time`);
      found.set(number, this.image(number, entry, settings.noticing.attempts));
    }
    return images.map(({ number }): KnownImage => found.get(number) ?? { fate: 'not yet', takes: 0 });
  }

  private image(number: number, { value, takes }: Entry, attempts: number): KnownImage {
    const read = this.table.word(value, IMAGE_WORDS);
    if (read === null || read === 'not yet') return { fate: 'not yet', takes: 0 };
    const written = isMissing(takes.text) ? null : this.table.whole(takes, 1, attempts);
    if (read === 'running') return this.running(number, (written ?? 1) - 1);
    if (read === 'given up') return { fate: 'flagged', takes: attempts };
    return { fate: read, takes: written ?? 1 };
  }

  /** The scan that runs tells nothing before it ends, so it is still to be made. */
  private running(number: number, takes: number): KnownImage {
    this.scanned.add(number);
    this.notes.push(
      `${imageName(this.model, this.model.images[number])} is being scanned now: it counts as not scanned yet, from its beginning.`,
    );
    return takes === 0 ? { fate: 'not yet', takes } : { fate: 'flagged', takes };
  }

  private instrument(number: number, images: readonly KnownImage[], now: number): KnownInstrument {
    const { model, table } = this;
    const share = model.shares[number];
    const taken = share.filter((image) => images[image.number].takes > 0);
    const { tip, parked } = readTips(model, table, number, taken, images);
    const written = table.one('instrument', number)?.value;
    const standing = written === undefined ? null : table.word(written, STANDING_WORDS);
    const running = share.find((image) => this.scanned.has(image.number));
    const hasBegun = tip !== null || taken.length > 0 || running !== undefined;
    const usual = !hasBegun ? 'not begun' : model.bookings.isOpen(now) && tip !== null ? 'at work' : 'closed';
    if (standing === 'not begun' && hasBegun && written !== undefined)
      table.fault(written.place, 'the instrument has not begun, and yet a tip is on or images are taken');
    const last = running ?? taken.at(-1) ?? null;
    const sample = this.sample(number, share, last?.sample ?? null);
    const place = standing ?? usual;
    return {
      standing: place,
      sample: place === 'not begun' ? null : sample,
      lostSamples: table.of('sample lost', number).flatMap(({ value }) => this.sampleCalled(value) ?? []),
      region: this.region(number, sample, last?.sample === sample ? last.region : null),
      tip,
      parked,
      sitesUsed: this.sitesUsed(number, tip?.kind ?? null),
      left: this.left(number),
    };
  }

  /** The sample that is on: as told, else that of the last image, else the first. */
  private sample(number: number, share: readonly ImageModel[], usual: number | null): number {
    const first = share.at(0)?.sample ?? 0;
    const entry = this.table.one('sample on', number);
    const told = entry === null || isNone(entry.value.text) ? null : this.sampleCalled(entry.value);
    if (entry === null || told === null || share.some(({ sample }) => sample === told)) return told ?? usual ?? first;
    this.table.fault(entry.value.place, `${sampleText(this.model.samples[told])} is not measured at this instrument`);
    return first;
  }

  /** By its name or its number. */
  private sampleCalled({ text, place }: Cell): number | null {
    const { samples } = this.model;
    const names = samples.map(sampleText);
    const isCalled = ({ name }: Sample, sample: number) =>
      [name, names[sample]].some((each) => plain(each) === plain(text));
    const sample = samples.findIndex(isCalled);
    if (sample >= 0) return sample;
    if (/^\d{1,9}$/u.test(text) && Number(text) >= 1 && Number(text) <= samples.length) return Number(text) - 1;
    this.table.fault(
      place,
      `the plan has no sample ${show(text)}${suggestion(
        text,
        samples.slice(0, 200).map(({ name }) => name),
      )}`,
    );
    return null;
  }

  /** Regions are told by their number within the sample that is on. */
  private region(number: number, sample: number, usual: number | null): number | null {
    const entry = this.table.one('region in place', number);
    if (entry === null) return usual;
    if (isNone(entry.value.text)) return null;
    const { firstRegion, regions } = this.model.samples[sample];
    const region = this.table.whole(entry.value, 1, regions);
    return region === null ? null : firstRegion + region - 1;
  }

  private sitesUsed(number: number, on: number | null): KnownInstrument['sitesUsed'] {
    const { model, table } = this;
    if (model.workflow !== 'hop') return [];
    const sites = new Map(Object.entries(model.settings.workflows.hop.chip.sites));
    const used = table.of('sites used', number).flatMap(({ which, value }): readonly (readonly [number, number])[] => {
      const kind = model.kinds.findIndex(({ name }) => plain(name) === plain(which.text));
      const of = kind < 0 ? undefined : sites.get(model.kinds[kind].name);
      if (of === undefined) {
        table.fault(
          which.place,
          `the chip has no sites of kind ${show(which.text)}${suggestion(which.text, [...sites.keys()])}`,
        );
        return [];
      }
      const count = table.whole(value, 0, of);
      return count === null ? [] : [[kind, count]];
    });
    if (on === null || used.some(([kind]) => kind === on)) return used;
    this.notes.push(
      `No row says how many sites of the chip are used (\`sites used\`); only the one that is on is taken as used.`,
    );
    return [...model.kinds.map(({ index }) => [index, index === on ? 1 : 0] as const)];
  }

  private left(number: number): KnownInstrument['left'] {
    const { model, table } = this;
    const shelves = suppliesOf(model.settings).map(([what]) => what);
    const read = table.of('left', number).flatMap(({ which, value }): readonly (readonly [string, number])[] => {
      const shelf = shelves.find((what) => plain(what) === plain(which.text));
      if (shelf === undefined) {
        table.fault(which.place, `the scenario limits no ${show(which.text)}${suggestion(which.text, shelves)}`);
        return [];
      }
      const count = table.whole(value, 0, 1_000_000);
      return count === null ? [] : [[shelf, count]];
    });
    const missing = shelves.filter((what) => isUsed(what, model) && !read.some(([name]) => name === what));
    if (missing.length > 0)
      this.notes.push(`No row says what is left of ${missing.join(', ')}; it is taken as at the start.`);
    return read;
  }
}
