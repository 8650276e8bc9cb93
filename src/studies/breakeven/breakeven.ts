import type { LoadedScenario } from '../../scenario/load.js';
import type { Setting } from '../../scenario/ranges.js';
import { bonferroni } from '../../statistics/interval.js';
import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { answerUnlessStopped } from '../../analysis/answer.js';
import { stoppedBefore, unlessStopped, warnedOf } from '../../analysis/interrupted.js';
import { differenceIn, LEVEL, measureOf } from '../../analysis/differences.js';
import { estimateOf } from '../../analysis/estimate.js';
import { smallestOf } from '../../analysis/interest.js';
import { pairIn } from '../../analysis/pair.js';
import { Pool } from '../../execution/pool.js';
import { type Axis, axisOf, numberOf, numbersAt, settingLabel, shareOf } from '../../analysis/vary/axis.js';
import { applySettings, type Varied } from '../../analysis/vary/varied.js';
import { heldAtCentre } from '../../analysis/vary/held.js';
import { notToHurry } from '../../analysis/vary/hurry.js';
import { runInProcess } from '../../execution/in-process.js';
import { Meter } from '../../execution/progress.js';
import { Stopped, type Work } from '../../execution/work.js';
import type { PairMeasure } from '../../analysis/compared-measures.js';
import { besideAt } from '../../analysis/beside.js';
import { Curve, type CurveColumn, type Demand, isEqual, type Pair } from '../../analysis/vary/curve.js';
import { BREAKEVEN_FORMAT, type BreakEven, type BreakEvenLine, type Pattern, type RangeSaid } from './results.js';
import { answerOf } from './words.js';

export interface BreakEvenOptions extends StudyOptions {
  /** Along which the two may come to the same; numbers, not a choice. */
  readonly vary: Varied;
  /** A second value: for each of its settings the break-even is looked for. */
  readonly across?: Varied;
  /** Names of two strategies. */
  readonly between: readonly [string, string];
  readonly measure: PairMeasure;
}

/** Half-width of a crossing, as a share of the range, at which replications stop; coarser where there are many to find. */
const ALONE: Omit<Demand, 'campaigns'> = { from: 200, to: 3200, halfWidth: 0.02 };
const ONE_OF_MANY: Omit<Demand, 'campaigns'> = { from: 100, to: 800, halfWidth: 0.04 };
const MOST_CAMPAIGNS = 40_000;
/** Settings with which a line begins where its range says nothing else. */
const SETTINGS = { alone: 11, oneOfMany: 6 };

/**
 * Where two strategies come to the same along a range.
 * @throws RangeError where the varied value is a choice, or a name is no strategy's
 */
export function breakEven(loaded: LoadedScenario, options: BreakEvenOptions): BreakEven {
  return runInProcess(breakEvenWork(loaded, options));
}

/**
 * The same as work that others carry out. Stopped by hand, it says what is known by then of the lines that were begun.
 * @throws Stopped where it was interrupted before anything was known of any
 */
export function* breakEvenWork(loaded: LoadedScenario, options: BreakEvenOptions): Work<BreakEven> {
  const { vary, across, between, measure } = options;
  const axis = axisOf(vary);
  if (axis === null) throw new RangeError(`${vary.path} is varied over settings between which nothing lies`);
  const record = recordOf(BREAKEVEN_FORMAT, loaded, options);
  const pool = new Pool(record.seed);
  const settings: readonly (Setting | undefined)[] = across === undefined ? [undefined] : across.settings;
  const meter = new Meter('campaigns', options.onProgress);
  const study = { loaded, options, axis, pool, between, meter };
  const warnings = [
    ...(options.warnings ?? []),
    ...heldAtCentre(loaded),
    ...notToHurry(across === undefined ? [vary] : [vary, across]),
  ];
  const lines: BreakEvenLine[] = [];
  const demand = across === undefined ? ALONE : ONE_OF_MANY;
  let isStopped = false;
  for (const [number, setting] of settings.entries()) {
    const budget = (MOST_CAMPAIGNS * (number + 1)) / settings.length;
    const found = yield* unlessStopped(lineAt(study, setting, demand, budget));
    if (found?.line === null)
      warnings.push(`at ${settingLabel(setting ?? null)} hardly any setting of ${vary.path} is a scenario; left out`);
    else if (found !== null) lines.push(found.line);
    isStopped = found?.isStopped ?? true;
    if (isStopped) break;
  }
  if (isStopped && lines.length === 0) throw new Stopped();
  const stopping = isStopped ? stoppedBefore(wantedOf(demand, axis)) : stoppingText(demand, axis, lines);
  const found = {
    between,
    measure,
    level: LEVEL,
    range: rangeSaid(vary, axis),
    across: across === undefined ? null : acrossSaid(across),
    lines,
  };
  return {
    ...record,
    ...found,
    campaigns: pool.campaigns,
    stopping,
    answer: answerUnlessStopped(answerOf(found, loaded.currency), stopping),
    warnings: [...warnings, ...warnedOf(stopping)],
  };
}

interface Study {
  readonly loaded: LoadedScenario;
  readonly options: BreakEvenOptions;
  readonly axis: Axis;
  readonly pool: Pool;
  readonly between: readonly [string, string];
  readonly meter: Meter;
}

/**
 * One line; null where hardly any setting is a scenario.
 * @throws Stopped where it was interrupted before anything was known of it
 */
function* lineAt(
  study: Study,
  across: Setting | undefined,
  demand: Omit<Demand, 'campaigns'>,
  campaigns: number,
): Work<{ readonly line: BreakEvenLine | null; readonly isStopped: boolean }> {
  const { loaded, options, axis, pool, between } = study;
  const curve = new Curve(
    axis,
    measureOf(options.measure),
    (setting): Pair | null => {
      const extra =
        options.across === undefined || across === undefined ? [] : [[options.across.path, across] as const];
      const applied = applySettings(loaded, [...extra, [options.vary.path, setting]]);
      if (!applied.ok) return null;
      const [first, second] = pairIn(applied.scenario, between);
      return { first: pool.runsOf(first), second: pool.runsOf(second) };
    },
    () => pool.campaigns,
  );
  for (const share of sharesOf(options.vary, axis, across !== undefined)) curve.add(share);
  if (curve.size < 2) return { line: null, isStopped: false };
  const isPrecise = yield* unlessStopped(curve.resolve({ ...demand, campaigns }, study.meter));
  if (curve.columns.length < 2) throw new Stopped();
  const line = {
    ...lineOf(study, curve),
    across: across === undefined ? null : settingLabel(across),
    acrossNumber: across === undefined ? null : numberOf(across),
    isPrecise: isPrecise ?? false,
  };
  return { line, isStopped: isPrecise === null };
}

/** Where a curve begins: at the settings of its range, or a few of it where their number was left open. */
function sharesOf({ settings, span }: Varied, axis: Axis, isOneOfMany: boolean): readonly number[] {
  if (span?.step === null && span.count === null && span.low < span.high) {
    const count = isOneOfMany ? SETTINGS.oneOfMany : SETTINGS.alone;
    return Array.from({ length: count }, (_, place) => place / (count - 1));
  }
  return settings.flatMap((setting) => {
    const number = numberOf(setting);
    return number === null ? [] : [shareOf(axis, number)];
  });
}

function lineOf(
  { loaded, axis, options, between }: Study,
  curve: Curve,
): Omit<BreakEvenLine, 'across' | 'acrossNumber' | 'isPrecise'> {
  const { columns, signs, crossings } = curve.found;
  const each = bonferroni(LEVEL, columns.length);
  const isLessBetter = options.measure !== 'yield';
  /** Of the two, who is better where the difference, second less first, has this sign. */
  const better = (sign: number) => between[sign < 0 === isLessBetter ? 1 : 0];
  const beside = ({ pair, differences }: CurveColumn) => besideAt(pair, differences.length, options.measure);
  const nearest = (at: number) =>
    columns.reduce((best, column) => (Math.abs(column.at - at) < Math.abs(best.at - at) ? column : best));
  const measure = measureOf(options.measure);
  return {
    pattern: patternOf(columns, signs),
    points: columns.map(({ number, setting, pair, differences }, place) => {
      const meanOf = (values: Float64Array) => estimateOf(values.subarray(0, differences.length)).value;
      const first = meanOf(pair.first.values[measure]);
      return {
        number,
        setting: settingLabel(setting),
        difference: differenceIn(options.measure, estimateOf(differences, each)),
        smallest: smallestOf(options.measure, loaded.base.smallestDifference, first),
        first,
        second: meanOf(pair.second.values[measure]),
        replications: differences.length,
        better: signs[place] === 0 ? null : better(signs[place]),
      };
    }),
    crossings: crossings.map(({ at, low, high, rises }) => ({
      ...numbersAt(axis, at, low, high),
      below: better(rises ? -1 : 1),
      above: better(rises ? 1 : -1),
      beside: beside(nearest(at)),
    })),
    besideEnds: [beside(columns[0]), beside(columns[columns.length - 1])],
  };
}

function patternOf(columns: readonly CurveColumn[], signs: readonly number[]): Pattern {
  if (columns.every(({ differences }) => isEqual(differences))) return 'equal throughout';
  if (signs.includes(1) && signs.includes(-1)) return 'crosses';
  return signs.includes(0) ? 'no clear difference' : 'one is better throughout';
}

function rangeSaid({ path, description }: Varied, { low, high, unit, isWhole, isLog }: Axis): RangeSaid {
  return { path, description, low, high, unit, isWhole, isLog };
}

/** A second path may be a choice, which has no numbers; its settings are then in the lines alone. */
function acrossSaid(across: Varied): RangeSaid {
  const axis = axisOf(across) ?? { low: 0, high: across.settings.length - 1, unit: '', isWhole: true, isLog: false };
  return rangeSaid(across, axis);
}

function wantedOf({ halfWidth }: Pick<Demand, 'halfWidth'>, { isWhole }: Axis): string {
  return `each break-even was known to ±${100 * halfWidth} % of the range${isWhole ? ' or to one whole number' : ''}, and every other setting clear`;
}

function stoppingText(demand: Omit<Demand, 'campaigns'>, axis: Axis, lines: readonly BreakEvenLine[]): string {
  const wanted = wantedOf(demand, axis);
  const open = lines.filter(({ isPrecise }) => !isPrecise).length;
  return open === 0
    ? `replications were doubled until ${wanted}`
    : `replications were to be doubled until ${wanted}; ${lines.length === 1 ? 'it stopped' : `${open} of ${lines.length} lines stopped`} before, at ${demand.to} replications of a setting or ${MOST_CAMPAIGNS} campaigns in all`;
}
