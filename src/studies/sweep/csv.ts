import { TIME_PARTS } from '../../campaign/time-parts.js';
import { MEASURES } from '../../execution/measures.js';
import type { Sweep } from './results.js';
import { TIME_PER_GOOD } from '../../analysis/words.js';
import { settingText } from '../../analysis/vary/varied.js';
import { csv, measureHeader } from '../../report/csv.js';
import { plainText } from '../../report/text.js';

/** `sweep.csv`: a row for each strategy at each point of the grid, every measure with its interval. */
export function sweepCsv(result: Sweep): string {
  const names = [
    ...MEASURES.map((measure) => measureHeader(measure, result.scenario.currency)),
    ...TIME_PARTS.map((part) => `${part} (s)`),
    `${TIME_PER_GOOD} (s)`,
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
      ...[
        ...MEASURES.map((measure) => cell.measures[measure]),
        ...TIME_PARTS.map((part) => cell.timeParts[part]),
        cell.timePerGood,
        cell.scanningLost,
        cell.finishes,
      ].flatMap((estimate): readonly (number | string)[] =>
        estimate === null ? ['', '', ''] : [estimate.value, estimate.low, estimate.high],
      ),
    ]),
  ]);
}
