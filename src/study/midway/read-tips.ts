import type { KnownImage, KnownTip } from '../../campaign/known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import type { Judgement } from '../../campaign/state.js';
import type { ExposureUnit } from '../../scenario/exposure.js';
import { suggestion } from '../../scenario/nearest.js';
import { readQuantity } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';
import type { Cell } from '../fit/sheet.js';
import type { What } from './state-rows.js';
import type { Entry, Table } from './state-table.js';
import { isNone, JUDGED_WORDS, plain } from './state-words.js';
import { pointed, readUse, UseReckoning, type WrittenUse } from './tip-use.js';

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
    if (isNone(value.text)) return null;
    const kind = kinds.findIndex((name) => plain(name) === plain(value.text));
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
      if (which.text === '' ? on === null : !held.some((name) => plain(name) === plain(which.text)))
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
    const suspects = judgement === 'failed a check' && this.model.settings.noticing.check?.repeatSuspects === true;
    const unflagged = suspects ? own : own.filter(({ number }) => images[number].fate !== 'flagged');
    const flagged =
      judgement === 'flagged by an image'
        ? own.filter(({ number }) => images[number].fate === 'flagged').slice(-1)
        : [];
    const use = new UseReckoning(this.model, this.kind, this.writtenUse());
    const whole = Math.floor(use.images + 1e-9);
    const ago = this.checkedAgo(whole);
    const scans = Math.max(0, (ago ?? whole) - flagged.length);
    const since = scans === 0 ? [] : unflagged.slice(-scans);
    return {
      kind: this.kind,
      use: use.in([...since, ...flagged]),
      isChecked: ago !== null,
      since: since.map(({ number }) => number),
      flaggedImage: flagged.at(0)?.number ?? null,
      judgement,
      radius: this.radius(),
    };
  }

  /** Rows about this tip: those of its kind, and for the tip that is on those of no kind. */
  private rows(what: What): readonly Entry[] {
    return this.table
      .of(what, this.instrument)
      .filter(({ which }) => (which.text === '' ? this.isOn : plain(which.text) === plain(this.name)));
  }

  private row(what: What): Cell | null {
    const [first, ...more] = this.rows(what);
    for (const { place } of more) this.table.fault(place, `\`${what}\` stands here for the second time`);
    return this.rows(what).length === 0 ? null : first.value;
  }

  private writtenUse(): WrittenUse {
    const read = new Map<ExposureUnit, number>();
    const rows = this.rows('tip use');
    for (const { value } of rows) {
      const reading = readUse(value.text);
      if (!reading.ok) this.table.fault(value.place, reading.message);
      else if (read.has(reading.value.unit))
        this.table.fault(value.place, `\`tip use\` counted per ${reading.value.unit} stands here for the second time`);
      else read.set(reading.value.unit, reading.value.value);
    }
    if (rows.length === 0) this.sayUseIsMissing();
    return read;
  }

  private sayUseIsMissing(): void {
    const [on] = this.table.of(this.isOn ? 'tip on' : 'tip parked', this.instrument);
    this.table.fault(
      on.place,
      `no row says how much the tip ${show(this.name)} was used: \`tip use,${this.name},12 images\` is wanted`,
    );
  }

  /** Scans since the last passed check; null where it never passed one. */
  private checkedAgo(used: number): number | null {
    const cell = this.row('tip checked');
    if (cell === null || isNone(cell.text) || plain(cell.text) === 'never') return null;
    const match = /^(\d{1,9})(?:\s*(?:images?|scans?)(?:\s+ago)?)?$/u.exec(cell.text);
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
    if (cell === null || isNone(cell.text)) return null;
    const reading = readQuantity('length', pointed(cell.text));
    if (reading.ok && reading.value > 0 && reading.value < 1e6) return reading.value;
    this.table.fault(
      cell.place,
      reading.ok ? `read ${show(cell.text)}; a length such as \`9.5 nm\` is wanted` : reading.message,
    );
    return null;
  }

  private judgement(): Judgement {
    const cell = this.row('tip judged');
    return cell === null ? 'sound' : (this.table.word(cell, JUDGED_WORDS) ?? 'sound');
  }
}
