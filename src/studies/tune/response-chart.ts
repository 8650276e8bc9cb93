import { nameIn } from '../../scenario/describe.js';
import type { Estimate } from '../../statistics/estimate.js';
import { estimateLine, type Scale, SHARE, unitName } from '../../wording/numbers.js';
import { capital } from '../../wording/phrases.js';
import { shortText } from './answer.js';
import { isAscending, numberOf } from './order.js';
import type { TunedSetting, TuneResult } from './results.js';
import { settingText } from '../../analysis/vary/varied.js';
import { type Axis, padded, rangeTitle } from '../../report/charts/axes.js';
import type { Chart, Drawing } from '../../report/charts/chart.js';
import { box, line, pointsWithIntervals, rule } from '../../report/charts/marks.js';
import { picture } from '../../report/charts/picture.js';
import { NEUTRALS } from '../../report/palette.js';
import { shownStanding, standingLooks } from './standings.js';
import { allSettings, goalScale, settingsTable } from './tables.js';

/** What is drawn over the settings of the one value that was varied. */
interface Drawn {
  readonly title: string;
  readonly scale: Scale;
  readonly of: (setting: TunedSetting) => Estimate | null;
  /** A stretch that is set off, in the unit of the estimates. */
  readonly band: readonly [number, number] | null;
}

/** The goal over the settings of one value, each with its interval. */
export const responseChart: Chart<TuneResult> = {
  id: 'response',
  title: 'The response',
  caption: (result) =>
    `${capital(result.goal.title)} at each setting, with 95 % intervals, all with common random numbers. ` +
    (result.winner === null
      ? 'No setting is known to meet the yield.'
      : 'The band is what counts as equal to the winner. ') +
    'The dashed line is the present setting. Intervals of single settings may overlap where the paired differences do not: these decide.',
  alt: (result) => {
    const said = result.settings.map(
      (each) =>
        `${shortText(each.settings)}: ${each.goal === null ? 'nothing good' : estimateLine(each.goal, goalScale(result))}, ${shownStanding(each, result)}`,
    );
    return `Points with intervals over the settings of “${nameIn(result.varied[0].description)}”. ${said.join('; ')}.`;
  },
  drawing: (result) => {
    const best = result.winner === null ? null : result.settings[result.winner].goal;
    const { size } = result.procedure.zone;
    const band = best === null ? null : ([best.value - size, best.value + size] as const);
    return drawn(result, { title: capital(result.goal.title), scale: goalScale(result), of: ({ goal }) => goal, band });
  },
  table: (result) => settingsTable(result, allSettings(result)),
};

/** The yield over the same settings, where some yield is wanted. */
export const yieldChart: Chart<TuneResult> = {
  id: 'yield',
  title: 'The yield beside it',
  caption: ({ constraint }) =>
    `Yield at each setting, with 95 % intervals.${constraint === null ? '' : ' The band is the least yield that is wanted, with its indifference zone.'}`,
  alt: (result) =>
    `Points with intervals. ${result.settings.map((each) => `${shortText(each.settings)}: ${estimateLine(each.measures.yield, SHARE)}`).join('; ')}.`,
  drawing: (result) => {
    const { constraint } = result;
    const band =
      constraint === null
        ? null
        : ([
            constraint.yieldAtLeast - constraint.tolerance,
            Math.min(1, constraint.yieldAtLeast + constraint.tolerance),
          ] as const);
    return drawn(result, { title: 'Yield', scale: SHARE, of: ({ measures }) => measures.yield, band });
  },
  table: (result) => settingsTable(result, allSettings(result)),
};

/** An axis of numbers where all settings are, else one place for each in the order given. */
function axisOf({ varied }: TuneResult): { axis: Axis; at: (setting: TunedSetting) => number | string } {
  const [{ description, kind, settings, span }] = varied;
  const numbers = settings.flatMap((setting) => numberOf(setting) ?? []);
  if (kind === 'choice' || span === null || numbers.length < settings.length)
    return {
      axis: { title: rangeTitle(description), places: settings.map(settingText) },
      at: (each) => settingText(each.settings[0]),
    };
  const { unit, isLog } = span;
  return {
    axis: {
      title: rangeTitle(description, unit),
      isLog,
      domain: isLog ? [Math.min(...numbers) / 1.05, Math.max(...numbers) * 1.05] : padded(numbers, 0.03, 1e-9),
    },
    at: (each) => numberOf(each.settings[0]) ?? 0,
  };
}

function drawn(result: TuneResult, { title, scale, of, band }: Drawn): Drawing {
  const { axis, at } = axisOf(result);
  const points = result.settings.flatMap((each) => {
    const estimate = of(each);
    if (estimate === null) return [];
    const { value, low, high } = estimate;
    const [x, look] = [at(each), shownStanding(each, result)];
    return [{ x, look, value: value / scale.divisor, low: low / scale.divisor, high: high / scale.divisor }];
  });
  const present = of(result.present);
  const [from, to] = band ?? [];
  const zone = from === undefined || to === undefined ? [] : [{ y: from / scale.divisor, y2: to / scale.divisor }];
  const beside = present === null ? [] : [{ y: present.value / scale.divisor }];
  const ends = [...points.flatMap(({ low, high }) => [low, high]), ...zone.flatMap(({ y, y2 }) => [y, y2])];
  return picture({
    looks: standingLooks(points.map(({ look }) => look)),
    legend: {},
    panels: [
      {
        height: 320,
        x: axis,
        y: {
          title: scale.unit === '' ? title : `${title} (${unitName(scale)})`,
          domain: padded([...ends, ...beside.map(({ y }) => y)], 0.06, 1e-6),
        },
        marks: [
          box(zone),
          rule(beside, { dash: [5, 4], width: 1.2 }),
          ...(isAscending(result.varied[0])
            ? [
                line(
                  points.map(({ x, value }) => ({ x, y: value })),
                  { tone: NEUTRALS.line, width: 1.6 },
                ),
              ]
            : []),
          ...pointsWithIntervals(points, 90),
        ],
      },
    ],
  });
}
