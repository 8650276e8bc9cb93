import { MEASURES } from '../../study/results.js';
import type { Sweep } from '../../study/sweep/results.js';
import { settingText } from '../../study/vary/varied.js';
import { csv, measureHeader } from '../csv.js';
import { plainText } from '../text.js';

/** `sweep.csv`: a row for each strategy at each point of the grid, every measure with its interval. */
export function sweepCsv(result: Sweep): string {
  const names = [
    ...MEASURES.map((measure) => measureHeader(measure, result.scenario.currency)),
    'scanning lost (s)',
    'ever finished (share)',
  ];
  return csv([
    [
      ...result.ranges.map(({ path }) => path),
      'strategy',
      'replications',
      ...names.flatMap((name) => [name, `${name}, low`, `${name}, high`]),
    ],
    ...result.cells.map((cell) => [
      ...cell.at.map((number, axis) => plainText(settingText(result.ranges[axis].settings[number]))),
      plainText(cell.strategy),
      result.replications,
      ...[...MEASURES.map((measure) => cell.measures[measure]), cell.scanningLost, cell.finishes].flatMap(
        ({ value, low, high }) => [value, low, high],
      ),
    ]),
  ]);
}
