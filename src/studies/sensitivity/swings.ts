import { unlessStopped } from '../../analysis/interrupted.js';
import { verdictIn } from '../../analysis/differences.js';
import { changedBy } from '../../analysis/estimate.js';
import type { Estimate } from '../../statistics/estimate.js';
import { Curve } from '../../analysis/vary/curve.js';
import type { Setting, Written } from '../../scenario/ranges.js';
import { less } from '../../statistics/numbers.js';
import type { MeasureColumns } from '../../execution/collector.js';
import { pairIn } from '../../analysis/pair.js';
import type { Meter } from '../../execution/progress.js';
import { completed, together, type Work } from '../../execution/work.js';
import { type Axis, numberAt, numbersAt } from '../../analysis/vary/axis.js';
import { type Input, put } from './inputs.js';
import type { End, Swing, Turning } from './results.js';
import type { Here } from './standing.js';

/** Replications of an end, on top of those with all values as they stand: more where the first leave its sign open. */
const LOOKS = [128, 1024];
/** What may be spent on the place at which a verdict turns. */
const TO_TURN = { from: 200, to: 1600, halfWidth: 0.03, campaigns: 6000 };

/** An input at both range limits. */
export interface Ends {
  readonly low: End;
  readonly high: End;
}

/** One input at both range limits; where the sign of the difference changes, the place at which it does. */
export function* swingOf(here: Here, input: Input, ends: Ends, meter: Meter): Work<Swing> {
  const { entry } = input;
  const { low, high } = ends;
  const found = [low, high].flatMap(({ difference }) => (difference === null ? [] : [difference]));
  const turned = isClear(here.difference) ? found.filter((end) => !isSameWay(end, here.difference)) : [];
  const isOtherSign = ({ difference }: End) => difference !== null && difference.value * here.difference.value < 0;
  const hasPlace = turned.length > 0 && (isOtherSign(low) || isOtherSign(high));
  return {
    path: entry.path,
    description: entry.description,
    value: entry.value,
    standing: entry.standing,
    low,
    high,
    most: Math.max(0, ...found.map(({ value }) => Math.abs(value - here.difference.value))),
    turns: turned.length === 0 ? null : turned.some(isClear) ? 'reversed' : 'no longer clear',
    turning: hasPlace
      ? yield* unlessStopped(turningOf(here, input, isOtherSign(low) ? 'below' : 'above', meter))
      : null,
  };
}

function isClear(difference: Estimate): boolean {
  return verdictIn(difference) !== 'no clear difference';
}

/** Whether an end has the clear difference that there is with all values as they stand. */
export function isSameWay(end: Estimate, here: Estimate): boolean {
  return verdictIn(end) === verdictIn(here);
}

/** Campaigns that an input takes at least, of the two strategies at both ends. */
export function fewestAt(here: Here): number {
  return 2 * 2 * Math.min(LOOKS[0], here.replications);
}

/** @throws Stopped where it was interrupted */
export function* endsOf(here: Here, input: Input, meter: Meter): Work<Ends> {
  const [low, high] = yield* together([input.range.low, input.range.high].map((end) => endOf(here, input, end, meter)));
  return { low, high };
}

function* endOf(here: Here, input: Input, end: Written, meter: Meter): Work<End> {
  const changed = put(here.loaded, input, end);
  if (!changed.ok) return { at: String(end), difference: null, notTried: changed.message };
  const [first, second] = pairIn(changed.scenario, here.between).map((strategy) => here.pool.runsOf(strategy));
  const { values: before } = here.pair.first;
  const { values: beside } = here.pair.second;
  for (let look = 0; ; look += 1) {
    const replications = Math.min(LOOKS[look], here.replications);
    yield* completed(meter.over([first, second].flatMap((runs) => runs.tasksTo(replications))));
    const between = (to: MeasureColumns, from: MeasureColumns) =>
      less(to[here.measure].subarray(0, replications), from[here.measure]);
    const { value, low, high } = changedBy(
      here.difference,
      between(beside, before),
      between(second.values, first.values),
    );
    const difference = { value, low, high };
    if (isClear(difference) || !isClear(here.difference) || replications < LOOKS[look] || look === LOOKS.length - 1)
      return { at: String(end), difference, notTried: null };
  }
}

/** The crossing between the value as it stands and an end at which the difference has the other sign. */
function* turningOf(here: Here, input: Input, side: Turning['side'], meter: Meter): Work<Turning | null> {
  const axis = stretch(input, side);
  const curve = new Curve(
    axis,
    here.measure,
    (setting: Setting) => {
      if (typeof setting !== 'number' && typeof setting !== 'string') return null;
      const changed = put(here.loaded, input, setting);
      if (!changed.ok) return null;
      const [first, second] = pairIn(changed.scenario, here.between).map((strategy) => here.pool.runsOf(strategy));
      return { first, second };
    },
    () => here.pool.campaigns,
  );
  for (const share of [0, 0.5, 1]) curve.add(share);
  if (curve.size < 2) return null;
  yield* curve.resolve({ ...TO_TURN, campaigns: here.pool.campaigns + TO_TURN.campaigns }, meter);
  const { crossings } = curve.found;
  const crossing = side === 'above' ? crossings.at(0) : crossings.at(-1);
  if (crossing === undefined) return null;
  return { ...numbersAt(axis, crossing.at, crossing.low, crossing.high), unit: axis.unit, side };
}

/** The part of an input's range on one side of its value. */
function stretch({ axis, value }: Input, side: Turning['side']): Axis {
  const inside = Math.min(axis.high, Math.max(axis.low, value));
  const [low, high] = side === 'above' ? [inside, numberAt(axis, 1)] : [numberAt(axis, 0), inside];
  return { ...axis, low, high };
}
