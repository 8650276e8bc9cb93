import { type TimePart, TIME_PARTS } from '../../campaign/time-parts.js';
import { hurryAlong } from '../../analysis/vary/hurry.js';
import { nameIn } from '../../scenario/describe.js';
import { listed, quoted } from '../../wording/phrases.js';
import { sizeText, TIME_PER_GOOD } from '../../analysis/words.js';
import type { Sweep, SweepBest, SweepCell } from './results.js';
import { timeText, percentText } from '../../wording/numbers.js';

type Found = Pick<Sweep, 'ranges' | 'best' | 'cells'>;

/** A part that changes by less than this share of what is saved or spent is not named, nor are more than so many. */
const WORTH_NAMING = 0.1;
const MOST_NAMED = 3;

/**
 * Where the gain of a hurry goes, along a range that is one: from the slowest setting to the one of least time per good image, and
 * from there to the quickest; then whether an optimum lies inside. No sentence where the range is none.
 */
export function whereGainsGo(strategy: string, { ranges, best, cells }: Found, currency: string): readonly string[] {
  const [{ path, description, numbers }] = ranges;
  const way = hurryAlong(path);
  if (ranges.length > 1 || way === null || numbers.includes(null)) return [];
  const own = cells
    .filter((cell) => cell.strategy === strategy)
    .sort((a, b) => way * ((numbers[a.at[0]] ?? 0) - (numbers[b.at[0]] ?? 0)));
  const least = best.find((each) => each.strategy === strategy && each.respect === 'timePerGood');
  if (own.length < 2 || least === undefined) return [];
  const [slowest, quickest] = [own[0], own[own.length - 1]];
  const middle = own.find(({ settings }) => settings[0] === least.settings[0]) ?? quickest;
  const legs = [
    [slowest, middle],
    [middle, quickest],
  ].filter(([from, to]) => from !== to);
  return [
    `${quoted(strategy)}: ${legs.map(([from, to]) => `from ${from.settings[0]} to ${to.settings[0]} of ${quoted(nameIn(description))}, ${leg(from, to)}`).join('; ')}.`,
    `${quoted(strategy)}: ${optimumText(least, slowest, quickest, currency)}`,
  ];
}

/** What a hurry from one setting to another saves, and what it spends of that. */
function leg(from: SweepCell, to: SweepCell): string {
  const less = (part: TimePart) => from.timeParts[part].value - to.timeParts[part].value;
  const saved = changed(TIME_PARTS, less);
  const spent = changed(TIME_PARTS, (part) => -less(part));
  const [before, after] = [from, to].map(({ measures }) => percentText(measures.yield.value));
  const kept = before === after ? `the yield stays at ${after}` : `the yield goes from ${before} to ${after}`;
  const gain = saved.total === 0 ? 'nothing is saved' : `${timeText(saved.total)} is saved (${saved.named})`;
  const price = spent.total === 0 ? 'nothing more is lost' : `${timeText(spent.total)} more is spent (${spent.named})`;
  return `${gain}, ${spent.total > saved.total ? 'but ' : ''}${price}, and ${kept}`;
}

/** How much some parts grow together, and in words which of them most. */
function changed(parts: readonly TimePart[], by: (part: TimePart) => number) {
  const grown = parts.filter((part) => by(part) > 0).sort((a, b) => by(b) - by(a));
  const total = grown.reduce((sum, part) => sum + by(part), 0);
  const named = grown.filter((part) => by(part) > WORTH_NAMING * total).slice(0, MOST_NAMED);
  return { total, named: listed(named.map((part) => `${timeText(by(part))} of ${part}`)) };
}

function optimumText(least: SweepBest, slowest: SweepCell, quickest: SweepCell, currency: string): string {
  const isAmong = ({ settings }: SweepCell) =>
    [least.settings, ...least.alike].some(([setting]) => setting === settings[0]);
  const size = sizeText('time', least.estimate, currency);
  const where = `the least ${TIME_PER_GOOD} that was tried, ${size}, is at ${least.settings[0]}`;
  const [slow, quick] = [slowest, quickest].map(isAmong);
  if (slow && quick) return `${where}, with no clear difference from either end: the range shows no optimum.`;
  if (slow || quick) {
    const [end, name] = slow ? [slowest, 'slowest'] : [quickest, 'quickest'];
    return end.settings[0] === least.settings[0]
      ? `${where}, the ${name} end: no optimum lies inside the range.`
      : `${where}, with no clear difference from the ${name} end: no clear optimum lies inside the range.`;
  }
  return `${where}: the optimum lies inside the range.`;
}
