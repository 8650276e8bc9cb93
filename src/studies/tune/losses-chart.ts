import { estimateLine, fixed, numberText, SHARE, unitName, withUnit } from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import type { TunedSetting, TuneResult } from './results.js';
import { uniqueLabels } from '../../report/text.js';
import { axisLabel, bestFirst, lossScale, settingsTable } from './tables.js';
import { padded } from '../../report/charts/axes.js';
import type { Chart } from '../../report/charts/chart.js';
import { forest } from '../../report/charts/forest.js';
import { shownStanding, standingLooks } from './standings.js';

/** Rows in the picture. */
const MOST = 30;

function rowsOf(result: TuneResult): readonly TunedSetting[] {
  return bestFirst(result)
    .filter(({ loss, standing }) => loss !== null || standing === 'winner')
    .slice(0, MOST);
}

function withRoomBehind([from, to]: readonly [number, number]): readonly [number, number] {
  return [from, to + 0.25 * (to - from)];
}

/** What a wrong choice costs: the paired difference of each setting from the winner. */
export const lossesChart: Chart<TuneResult> = {
  id: 'losses',
  title: 'What a wrong choice costs',
  caption: (result) =>
    `How much worse each setting is than the winner in ${result.goal.title}, paired with common random numbers; intervals hold for all ${numberText(result.confidence.comparisons)} differences together. One that includes 0 shows no clear difference; the band is what counts as equal.${result.settings.length > MOST ? ` The best ${String(MOST)} are shown.` : ''}`,
  alt: (result) =>
    `Points with intervals about a zero line, a row a setting. ${listed(
      rowsOf(result).map((each) =>
        each.loss === null
          ? `${axisLabel(each)} is the winner`
          : `${axisLabel(each)}: ${estimateLine(each.loss, lossScale(result), 'difference')}`,
      ),
    )}.`,
  drawing: (result) => {
    if (result.winner === null) return null;
    const scale = lossScale(result);
    const settings = rowsOf(result);
    const labels = uniqueLabels(
      settings.map((each) => (each.isPresent ? `${axisLabel(each)} (present)` : axisLabel(each))),
      40,
    );
    const rows = settings.map((setting, place) => {
      const { loss, lossShare } = setting;
      const { value, low, high } = loss ?? { value: 0, low: 0, high: 0 };
      const item = {
        look: shownStanding(setting, result),
        value: value / scale.divisor,
        low: low / scale.divisor,
        high: high / scale.divisor,
        text: lossShare === null ? '' : withUnit(`${lossShare > 0 ? '+' : ''}${fixed(100 * lossShare, 1)}`, SHARE),
      };
      return { name: labels[place], items: [item] };
    });
    const size = result.procedure.zone.size / scale.divisor;
    const ends = rows.flatMap(({ items: [{ low, high }] }) => [low, high]);
    const name = `Worse than the winner in ${result.goal.title}`;
    return forest({
      looks: standingLooks(settings.map((setting) => shownStanding(setting, result))),
      legend: {},
      step: 24,
      texts: 'behind',
      panels: [
        {
          x: {
            title: scale.unit === '' ? name : `${name} (${unitName(scale)})`,
            // Its figure stands behind the farthest end.
            domain: withRoomBehind(padded([-size, size, ...ends], 0.08, 1e-6)),
          },
          zone: [-size, size],
          lines: [{ at: 0 }],
          rows,
        },
      ],
    });
  },
  table: (result) => settingsTable(result, rowsOf(result)),
};
