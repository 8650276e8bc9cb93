import { shortText } from '../../study/tune/answer.js';
import type { TuneResult } from '../../study/tune/results.js';
import { settingText } from '../../study/vary/varied.js';
import { type Chart, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { numberText, SHARE } from '../format.js';
import { NEUTRALS, QUALITY_TONES } from '../palette.js';
import { settingsTable } from './tables.js';

/** Shares of the best mean by which a setting may be worse: the last class has no end. */
const CLASSES = [0.01, 0.03, 0.1, 0.3, 1] as const;

interface Cell {
  readonly first: string;
  readonly second: string;
  /** How much worse than the winner, as a share. */
  readonly worse: number;
  readonly mark: string;
}

/** Every setting of two values that was looked at, by how much worse than the winner it is. */
function cellsOf(result: TuneResult): readonly Cell[] {
  const best = result.winner === null ? null : result.settings[result.winner];
  const cell = (settings: TuneResult['present']['settings'], worse: number, mark: string): Cell => ({
    first: settingText(settings[0]),
    second: settingText(settings[1]),
    worse,
    mark,
  });
  const compared = result.settings.map(({ settings, goal, lossShare, standing, meets }) => {
    const mark = standing === 'winner' ? '★' : standing === 'not told apart' ? '=' : meets === 'fails' ? '×' : '';
    return cell(settings, goal === null ? Infinity : Math.max(0, lossShare ?? 0), mark);
  });
  const least = Math.min(...result.looked.map(({ goal }) => goal));
  const most = Math.max(...result.looked.map(({ goal }) => goal));
  const looked = result.looked
    .filter(({ isCompared }) => !isCompared && best !== null)
    .map(({ settings, goal }) =>
      cell(settings, result.goal.sense === 'least' ? goal / least - 1 : 1 - goal / most, ''),
    );
  return [...compared, ...looked];
}

export const mapChart: Chart<TuneResult> = {
  id: 'map',
  title: 'The map',
  caption: (result) =>
    `How much worse than the winner each pair of settings is in ${result.goal.title}, as a share of the winner’s: the stronger the cell, the worse. ★ the winner, = not told from it, × fails the yield.` +
    (result.looked.length === 0
      ? ''
      : ' Cells without an outline were only looked at, on few replications; what is empty was not.'),
  alt: (result) => {
    const best = result.winner === null ? 'none' : shortText(result.settings[result.winner].settings);
    const good = result.settings.filter(({ standing }) => standing === 'not told apart');
    return `A grid of cells over ${result.varied[0].path} and ${result.varied[1].path}. The winner: ${best}. Not told from it: ${good.length === 0 ? 'none' : good.map(({ settings }) => shortText(settings)).join('; ')}.`;
  },
  spec: (result) => {
    const [first, second] = result.varied;
    const classes = [...CLASSES.map((most) => `up to ${numberText(most, SHARE)}`), 'more'];
    const classOf = (worse: number) => classes[CLASSES.findIndex((most) => worse <= most)] ?? 'more';
    const cells = cellsOf(result).map((cell) => ({
      first: cell.first,
      second: cell.second,
      mark: cell.mark,
      worse: classOf(cell.worse),
      outlined: result.looked.length > 0 && isCompared(result, cell),
    }));
    const rows = second.settings.length;
    const height = Math.min(640, Math.max(160, rows * 34));
    const fontSize = Math.max(7, Math.min(16, height / rows / 1.6));
    const x = {
      field: 'first',
      type: 'ordinal' as const,
      sort: first.settings.map(settingText),
      scale: { domain: first.settings.map(settingText) },
      title: first.path,
      axis: { labelAngle: 0, labelOverlap: true, domain: false, ticks: false },
    };
    const y = {
      field: 'second',
      type: 'ordinal' as const,
      scale: { domain: second.settings.map(settingText) },
      title: second.path,
      axis: { labelOverlap: true, domain: false, ticks: false },
    };
    const tones = QUALITY_TONES.map(({ light }) => light).toReversed();
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH,
      height,
      autosize: { type: 'fit-x', contains: 'padding' },
      layer: [
        {
          data: { values: cells },
          mark: { type: 'rect', stroke: NEUTRALS.paper.light, strokeWidth: 1 },
          encoding: {
            x,
            y,
            color: {
              field: 'worse',
              type: 'nominal',
              scale: { domain: classes, range: tones },
              legend: {
                title: 'Worse than the winner by',
                orient: 'top',
                symbolType: 'square',
                symbolStrokeWidth: 0,
                columns: 6,
              },
            },
          },
        },
        {
          data: { values: cells.filter(({ outlined }) => outlined) },
          mark: { type: 'rect', filled: false, stroke: NEUTRALS.ink.light, strokeWidth: 1 },
          encoding: { x, y },
        },
        {
          data: { values: cells.filter(({ mark }) => mark !== '') },
          mark: {
            type: 'text',
            fontSize,
            fontWeight: 700,
            stroke: NEUTRALS.paper.light,
            strokeWidth: 3,
            strokeJoin: 'round',
          },
          encoding: { x, y, text: { field: 'mark' } },
        },
        {
          data: { values: cells.filter(({ mark }) => mark !== '') },
          mark: { type: 'text', fontSize, fontWeight: 700 },
          encoding: { x, y, text: { field: 'mark' } },
        },
      ],
    };
  },
  table: (result) => settingsTable(result, result.settings),
};

function isCompared(result: TuneResult, { first, second }: Cell): boolean {
  return result.settings.some(
    ({ settings }) => settingText(settings[0]) === first && settingText(settings[1]) === second,
  );
}
