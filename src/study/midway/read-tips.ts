import type { KnownImage, KnownTip } from '../../campaign/known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import { suggestion } from '../../scenario/nearest.js';
import { readQuantity, splitQuantity } from '../../scenario/quantity.js';
import { readExposure } from '../../scenario/exposure.js';
import { show } from '../../scenario/show.js';
import type { Cell } from '../fit/sheet.js';
import { JUDGED, NONE, type What } from './state-rows.js';
import type { Entry, Table } from './state-table.js';

/**
 * The tips that are on or parked at an instrument, and what is known of them. The takes since a tip's last passed check are
 * the last ones of its kind in plan order.
 */
export function readTips(
  model: CampaignModel,
  table: Table,
  instrument: number,
  taken: readonly ImageModel[],
  images: readonly KnownImage[],
): { readonly tip: KnownTip | null; readonly parked: readonly KnownTip[] } {
  const on = table.one('tip on', instrument);
  const kinds = model.kinds.map(({ name }) => name);
  const kindOf = ({ value }: Entry): number | null => {
    if (value.text === NONE || value.text === '') return null;
    const kind = kinds.indexOf(value.text);
    if (kind < 0) table.fault(value.place, `no tip kind is called ${show(value.text)}${suggestion(value.text, kinds)}`);
    return kind < 0 ? null : kind;
  };
  const mounted = on === null ? null : kindOf(on);
  const parked = table.of('tip parked', instrument).flatMap((entry) => {
    const kind = kindOf(entry);
    if (kind !== null && kind === mounted)
      table.fault(entry.value.place, `a tip of kind ${show(entry.value.text)} is on; only other kinds are parked`);
    return kind === null || kind === mounted ? [] : [kind];
  });
  if (new Set(parked).size < parked.length)
    table.fault(table.of('tip parked', instrument)[0].place, 'one tip of a kind can be parked, not several');
  const held = [...(mounted === null ? [] : [mounted]), ...new Set(parked)];
  checkOwners(
    table,
    instrument,
    held.map((kind) => kinds[kind]),
    mounted === null ? null : kinds[mounted],
  );
  const tipOf = (kind: number) => new TipReader(model, table, instrument, kind, kind === mounted).read(taken, images);
  return { tip: mounted === null ? null : tipOf(mounted), parked: [...new Set(parked)].map(tipOf) };
}

const OF_TIPS: readonly What[] = ['tip use', 'tip checked', 'tip radius', 'tip judged'];

/** Rows about tips that are neither on nor parked tell nothing. */
function checkOwners(table: Table, instrument: number, held: readonly string[], on: string | null): void {
  for (const what of OF_TIPS) {
    for (const { which } of table.of(what, instrument)) {
      if (which.text === '' ? on === null : !held.includes(which.text))
        table.fault(which.place, `no tip of kind ${show(which.text)} is on or parked${suggestion(which.text, held)}`);
    }
  }
}

class TipReader {
  private readonly name: string;

  constructor(
    private readonly model: CampaignModel,
    private readonly table: Table,
    private readonly instrument: number,
    private readonly kind: number,
    private readonly isOn: boolean,
  ) {
    this.name = model.kinds[kind].name;
  }

  read(taken: readonly ImageModel[], images: readonly KnownImage[]): KnownTip {
    const own = taken.filter(({ pass }) => pass.kind === this.kind);
    const judgement = this.judgement();
    // A failed check makes the takes since the last passed one suspect: flagged, though no review flagged them.
    const suspects = judgement === JUDGED.failed && this.model.settings.noticing.check?.repeatSuspects === true;
    const unflagged = suspects ? own : own.filter(({ number }) => images[number].fate !== 'flagged');
    const flaggedImage =
      judgement === JUDGED.flagged
        ? (own.findLast(({ number }) => images[number].fate === 'flagged')?.number ?? null)
        : null;
    const use = this.use();
    const ago = this.checkedAgo(Math.floor(use.images + 1e-9));
    const scans = Math.max(0, (ago ?? Math.floor(use.images + 1e-9)) - (flaggedImage === null ? 0 : 1));
    return {
      kind: this.kind,
      use,
      isChecked: ago !== null,
      since: scans === 0 ? [] : unflagged.slice(-scans).map(({ number }) => number),
      flaggedImage,
      judgement,
      radius: this.radius(),
    };
  }

  /** Rows about this tip: those of its kind, and for the tip that is on those of no kind. */
  private rows(what: What): readonly Entry[] {
    return this.table
      .of(what, this.instrument)
      .filter(({ which }) => which.text === this.name || (which.text === '' && this.isOn));
  }

  private row(what: What): Cell | null {
    const [first, ...more] = this.rows(what);
    for (const { place } of more) this.table.fault(place, `\`${what}\` stands here for the second time`);
    return this.rows(what).length === 0 ? null : first.value;
  }

  /** In every unit; what is not written follows from the images, by the mean of the passes of its kind. */
  private use(): KnownTip['use'] {
    const read = new Map<string, number>();
    for (const { value } of this.rows('tip use')) {
      const amount = this.amount(value);
      if (amount !== null) read.set(amount.unit, amount.value);
    }
    const { passes, settings } = this.model;
    const own = passes.filter((pass) => pass.kind === this.kind);
    const mean = (of: (pass: (typeof own)[number]) => number) =>
      own.reduce((sum, pass) => sum + of(pass), 0) / Math.max(1, own.length);
    const path = mean((pass) => pass.path);
    const hours = mean((pass) => pass.scanTime) / 3600;
    const written = read.get('image') ?? fromOther(read.get('distance'), path) ?? fromOther(read.get('hour'), hours);
    if (written === undefined) this.sayUseIsMissing();
    const images = written ?? 0;
    const perVisit = settings.plan.order === 'region-first' ? Math.max(1, own.length) : 1;
    return {
      images,
      path: read.get('distance') ?? images * path,
      hours: read.get('hour') ?? images * hours,
      approaches: read.get('approach') ?? Math.max(1, Math.ceil(images / perVisit - 1e-9)),
    };
  }

  private sayUseIsMissing(): void {
    const [on] = this.table.of(this.isOn ? 'tip on' : 'tip parked', this.instrument);
    if (this.rows('tip use').length === 0)
      this.table.fault(
        on.place,
        `no row says how much the tip ${show(this.name)} was used: \`tip use,${this.name},12 images\` is wanted`,
      );
  }

  private amount({ text, place }: Cell): { readonly unit: string; readonly value: number } | null {
    const point = text.replace(/^(\d+),(\d+)/u, '$1.$2');
    const parts = splitQuantity(point);
    const approaches = parts !== null && /^approach(?:es)?$/u.test(parts.unit) ? parts.number : null;
    if (approaches !== null && approaches >= 0) return { unit: 'approach', value: approaches };
    for (const unit of ['image', 'distance', 'hour'] as const) {
      // No use at all has a unit too, which is read as that of one.
      const isNone = parts?.number === 0;
      const reading = readExposure(unit, isNone ? `1 ${parts.unit}` : point);
      if (reading.ok) return { unit, value: isNone ? 0 : reading.value };
    }
    this.table.fault(
      place,
      `read ${show(text)}; use such as \`12 images\`, \`8.5 mm\`, \`3 h\` or \`4 approaches\` is wanted`,
    );
    return null;
  }

  /** Scans since the last passed check; null where it never passed one. */
  private checkedAgo(used: number): number | null {
    const cell = this.row('tip checked');
    if (cell === null || cell.text === '' || cell.text === 'never') return null;
    const match = /^(\d{1,9})(?:\s*images?(?:\s+ago)?)?$/u.exec(cell.text);
    if (match === null) {
      this.table.fault(cell.place, `read ${show(cell.text)}; \`5 images ago\` or \`never\` is wanted`);
      return null;
    }
    const ago = Number(match[1]);
    if (ago <= used) return ago;
    this.table.fault(cell.place, `read ${show(cell.text)}, and yet the tip was used for ${used} whole images only`);
    return null;
  }

  private radius(): number | null {
    const cell = this.row('tip radius');
    if (cell === null || cell.text === '' || cell.text === NONE) return null;
    const reading = readQuantity('length', cell.text.replace(/^(\d+),(\d+)/u, '$1.$2'));
    if (reading.ok && reading.value > 0 && reading.value < 1e6) return reading.value;
    this.table.fault(
      cell.place,
      reading.ok ? `read ${show(cell.text)}; a length such as \`9.5 nm\` is wanted` : reading.message,
    );
    return null;
  }

  private judgement(): KnownTip['judgement'] {
    const cell = this.row('tip judged');
    if (cell === null || cell.text === '') return JUDGED.sound;
    const known = Object.entries(JUDGED).find(([word]) => word === cell.text);
    if (known !== undefined) return known[1];
    this.table.fault(cell.place, `read ${show(cell.text)}${suggestion(cell.text, Object.keys(JUDGED))}`);
    return JUDGED.sound;
  }
}

function fromOther(amount: number | undefined, perImage: number): number | undefined {
  return amount === undefined || perImage <= 0 ? undefined : amount / perImage;
}
