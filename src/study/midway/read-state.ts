import { FATES, type KnownCampaign, type KnownImage, type KnownInstrument, STANDINGS } from '../../campaign/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import { suppliesOf } from '../../campaign/stores.js';
import { microseconds } from '../../kernel/clock.js';
import { allocationText } from '../../scenario/exposure.js';
import { suggestion } from '../../scenario/nearest.js';
import type { TextFault } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import { readMoment } from './moment.js';
import { type Entry, type Table, tableOf } from './state-table.js';
import { imageName, isUsed, NONE } from './state-rows.js';
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
      this.table.fault({ line: 1, column: 1 }, 'no row says what time it is: `now,,Tu 14:00` is wanted');
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
    if (text === NONE) return now;
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
    const names = images.map(imageName);
    for (const entry of this.table.all('image')) {
      const { text, place } = entry.which;
      const number = /^\d+$/u.test(text) ? Number(text) - 1 : names.findIndex((name) => plain(name) === plain(text));
      if (!(number >= 0 && number < images.length)) {
        this.table.fault(place, `the plan has no image ${show(text)}${suggestion(text, names.slice(0, 200))}`);
        continue;
      }
      if (found.has(number)) this.table.fault(place, `image ${show(text)} stands here for the second time`);
      found.set(number, this.image(entry, settings.noticing.attempts));
    }
    return images.map(({ number }): KnownImage => found.get(number) ?? { fate: 'not yet', takes: 0 });
  }

  private image({ value, takes }: Entry, attempts: number): KnownImage {
    const givenUp = value.text === 'given up';
    const fate = value.text === '' ? 'not yet' : givenUp ? 'flagged' : FATES.find((each) => each === value.text);
    if (fate === undefined) {
      this.table.fault(value.place, `read ${show(value.text)}${suggestion(value.text, [...FATES, 'given up'])}`);
      return { fate: 'not yet', takes: 0 };
    }
    if (fate === 'not yet') return { fate, takes: 0 };
    const count = takes.text === '' ? (givenUp ? attempts : 1) : this.table.whole(takes, 1, attempts);
    return { fate, takes: givenUp ? attempts : (count ?? 1) };
  }

  private instrument(number: number, images: readonly KnownImage[], now: number): KnownInstrument {
    const { model, table } = this;
    const share = model.shares[number];
    const taken = share.filter((image) => images[image.number].takes > 0);
    const { tip, parked } = readTips(model, table, number, taken, images);
    const written = table.one('instrument', number)?.value;
    const standing = written === undefined ? undefined : STANDINGS.find((each) => each === written.text);
    if (written !== undefined && standing === undefined)
      table.fault(written.place, `read ${show(written.text)}${suggestion(written.text, STANDINGS)}`);
    const hasBegun = tip !== null || taken.length > 0;
    const usual = !hasBegun ? 'not begun' : model.bookings.isOpen(now) && tip !== null ? 'at work' : 'closed';
    if (standing === 'not begun' && hasBegun && written !== undefined)
      table.fault(written.place, 'the instrument has not begun, and yet a tip is on or images are taken');
    return {
      standing: standing ?? usual,
      region: this.region(number, taken.at(-1)?.region ?? null),
      tip,
      parked,
      sitesUsed: this.sitesUsed(number, tip?.kind ?? null),
      left: this.left(number),
    };
  }

  private region(number: number, usual: number | null): number | null {
    const entry = this.table.one('region in place', number);
    if (entry === null) return usual;
    if (entry.value.text === NONE || entry.value.text === '') return null;
    const region = this.table.whole(entry.value, 1, this.model.settings.plan.regions);
    return region === null ? null : region - 1;
  }

  private sitesUsed(number: number, on: number | null): KnownInstrument['sitesUsed'] {
    const { model, table } = this;
    if (model.workflow !== 'hop') return [];
    const sites = new Map(Object.entries(model.settings.workflows.hop.chip.sites));
    const used = table.of('sites used', number).flatMap(({ which, value }): readonly (readonly [number, number])[] => {
      const kind = model.kinds.findIndex(({ name }) => name === which.text);
      const of = sites.get(which.text);
      if (kind < 0 || of === undefined) {
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
    const shelves = suppliesOf(model.settings.stock).map(([what]) => what);
    const read = table.of('left', number).flatMap(({ which, value }): readonly (readonly [string, number])[] => {
      if (!shelves.includes(which.text)) {
        table.fault(which.place, `the scenario limits no ${show(which.text)}${suggestion(which.text, shelves)}`);
        return [];
      }
      const count = table.whole(value, 0, 1_000_000);
      return count === null ? [] : [[which.text, count]];
    });
    const missing = shelves.filter((what) => isUsed(what, model) && !read.some(([name]) => name === what));
    if (missing.length > 0)
      this.notes.push(`No row says what is left of ${missing.join(', ')}; it is taken as at the start.`);
    return read;
  }
}

/** Names are told apart by letters and digits alone. */
function plain(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}
