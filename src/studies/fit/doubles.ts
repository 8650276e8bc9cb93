import { EXPOSURE_UNITS } from '../../scenario/exposure.js';
import { show } from '../../scenario/show.js';
import type { LogFault, TipRow } from './rows.js';

/**
 * Takes out rows that cannot both be true of one tip. The same tip may stand in several rows, one after the other: taken
 * off sound, and put on again with the use it had (entry); whatever overlaps is a tip that was written down twice.
 */
export function withoutDoubles(rows: readonly TipRow[]): {
  readonly kept: readonly TipRow[];
  readonly faults: readonly LogFault[];
} {
  const faults: LogFault[] = [];
  const byTip = new Map<string, TipRow[]>();
  const kept = rows.filter((row) => {
    const key = `${row.kind}\n${row.tip}`;
    const earlier = byTip.get(key) ?? [];
    const clash = earlier.find((other) => !follow(other, row) && !follow(row, other));
    if (clash === undefined) {
      byTip.set(key, [...earlier, row]);
      return true;
    }
    faults.push({
      ...row.place,
      severity: 'row',
      message: `the tip ${show(row.tip)} is a duplicate of line ${clash.place.line}; give it another name, or, if it was put on again, its use at entry (at least the use in line ${clash.place.line})`,
    });
    return false;
  });
  return { kept, faults };
}

/** Whether `next` may be the same tip put on again after `first`: sound until then, and its use goes on from there. */
function follow(first: TipRow, next: TipRow): boolean {
  if (first.ending.cause !== null || first.ending.suspected) return false;
  const common = EXPOSURE_UNITS.filter((unit) => first.use[unit] !== undefined && next.use[unit] !== undefined);
  return common.length > 0 && common.every((unit) => (next.entry[unit] ?? 0) >= (first.use[unit] ?? 0));
}
