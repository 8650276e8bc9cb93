import { nameIn } from '../../scenario/describe.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { shortText } from './answer.js';
import type { TuneResult } from './results.js';
import { settingText } from '../../analysis/vary/varied.js';
import { QUALITY_TONES } from '../../report/palette.js';
import { settingsTable } from './tables.js';
import { rangeTitle } from '../../report/charts/axes.js';
import type { Chart } from '../../report/charts/chart.js';
import { heatMap } from '../../report/charts/heat-map.js';

/** Shares of the best mean by which a setting may be worse: the last class has no end. */
const CLASSES = [0.01, 0.03, 0.1, 0.3, 1] as const;

interface Cell {
  readonly x: string;
  readonly y: string;
  /** How much worse than the winner, as a share. */
  readonly worse: number;
  readonly text: string;
  /** Whether it was compared, where some were only looked at. */
  readonly isOutlined: boolean;
}

/** Every setting of two values that was looked at, by how much worse than the winner it is. */
function cellsOf(result: TuneResult): readonly Cell[] {
  const best = result.winner === null ? null : result.settings[result.winner];
  const cell = (settings: TuneResult['present']['settings'], worse: number, text = '', isOutlined = false): Cell => ({
    x: settingText(settings[0]),
    y: settingText(settings[1]),
    worse,
    text,
    isOutlined,
  });
  const compared = result.settings.map(({ settings, goal, lossShare, standing, meets }) => {
    const mark = standing === 'winner' ? '★' : standing === 'no clear difference' ? '=' : meets === 'fails' ? '×' : '';
    return cell(settings, goal === null ? Infinity : Math.max(0, lossShare ?? 0), mark, result.looked.length > 0);
  });
  const least = Math.min(...result.looked.map(({ goal }) => goal));
  const most = Math.max(...result.looked.map(({ goal }) => goal));
  const looked = result.looked
    .filter(({ isCompared }) => !isCompared && best !== null)
    .map(({ settings, goal }) => cell(settings, result.goal.sense === 'least' ? goal / least - 1 : 1 - goal / most));
  return [...compared, ...looked];
}

export const mapChart: Chart<TuneResult> = {
  id: 'map',
  title: 'The map',
  caption: (result) =>
    `How much worse than the winner each pair of settings is in ${result.goal.title}, as a share of the winner’s: the stronger the cell, the worse. ★ the winner, = no clear difference from it, × fails the yield.` +
    (result.looked.length === 0
      ? ''
      : ' Cells without an outline were only looked at, on few replications; what is empty was not.'),
  alt: (result) => {
    const best = result.winner === null ? 'none' : shortText(result.settings[result.winner].settings);
    const good = result.settings.filter(({ standing }) => standing === 'no clear difference');
    return `A grid of cells over “${nameIn(result.varied[0].description)}” and “${nameIn(result.varied[1].description)}”. The winner: ${best}. No clear difference from it: ${good.length === 0 ? 'none' : good.map(({ settings }) => shortText(settings)).join('; ')}.`;
  },
  drawing: (result) => {
    const [first, second] = result.varied;
    const classes = [...CLASSES.map((most) => `up to ${numberText(most, SHARE)}`), 'more'];
    const places = (axis: TuneResult['varied'][number]) => ({
      title: rangeTitle(axis.description),
      places: axis.settings.map(settingText),
    });
    return heatMap({
      looks: classes.map((name, place) => ({ name, tone: QUALITY_TONES[QUALITY_TONES.length - 1 - place] })),
      title: 'Worse than the winner by',
      step: Math.min(640 / second.settings.length, Math.max(34, 160 / second.settings.length)),
      panels: [
        {
          x: places(first),
          y: places(second),
          cells: cellsOf(result).map(({ worse, ...cell }) => ({
            ...cell,
            look: classes[CLASSES.findIndex((most) => worse <= most)] ?? 'more',
          })),
        },
      ],
    });
  },
  table: (result) => settingsTable(result, result.settings),
};
