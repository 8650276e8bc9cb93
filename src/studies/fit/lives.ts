import { EXPOSURE_UNITS, type ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import type { Lived } from '../../survival/observation.js';
import type { TipRow } from './rows.js';

/** A tip's life, with the row that it comes from. */
export interface TipLife extends Lived {
  readonly row: TipRow;
}

/** Whether a row says all that is needed of one exposure: some use that was watched, and where the tip was used before, that use too. */
function says(row: TipRow, unit: ExposureUnit): boolean {
  const used = (row.use[unit] ?? 0) > (row.entry[unit] ?? 0);
  const enteredLate = EXPOSURE_UNITS.some((each) => (row.entry[each] ?? 0) > 0);
  return used && (!enteredLate || row.entry[unit] !== undefined);
}

/**
 * Lives in one exposure unit. A tip taken off on suspicion counts as sound, unless `suspicions` are to count as events of a cause.
 * An event lies after the last known sound use where the log gives that, else at the use at which it was noticed.
 */
export function livesIn(rows: readonly TipRow[], unit: ExposureUnit, suspicions: Cause | null = null): TipLife[] {
  return rows
    .filter((row) => says(row, unit))
    .map((row) => {
      const use = row.use[unit] ?? 0;
      const entry = row.entry[unit] ?? 0;
      const cause = row.ending.cause ?? (mayBe(row, suspicions) ? suspicions : null);
      if (cause === null) return { row, entry, from: use, to: Infinity, cause };
      return { row, entry, from: row.sound[unit] ?? use, to: use, cause };
    });
}

/** Whether what a tip was suspected of may be this. */
export function mayBe({ ending }: TipRow, cause: Cause | null): boolean {
  return ending.suspected && (ending.suspect === null || ending.suspect === cause);
}

/** The exposure that most rows give; the first of images, distance, hours and approaches where several do. */
export function usualUnit(rows: readonly TipRow[]): ExposureUnit {
  const count = (unit: ExposureUnit) => rows.filter((row) => says(row, unit)).length;
  return EXPOSURE_UNITS.reduce((best, unit) => (count(unit) > count(best) ? unit : best));
}
