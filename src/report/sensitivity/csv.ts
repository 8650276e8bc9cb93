import type { Sensitivity } from '../../study/sensitivity/results.js';
import { csv } from '../csv.js';
import { plainUnit } from '../measure-scale.js';
import { plainText } from '../text.js';

/** `sensitivity.csv`: a row a value, both ends of its range and its elementary effects. */
export function sensitivityCsv({ measure, scenario, swings, morris }: Sensitivity): string {
  const unit = plainUnit(measure, scenario.currency);
  return csv([
    [
      'path',
      'value',
      ...['low end', 'high end'].flatMap((end) => [
        end,
        `difference at ${end} (${unit})`,
        `difference at ${end}, low (${unit})`,
        `difference at ${end}, high (${unit})`,
      ]),
      'turns',
      'turns at',
      'turns at, low',
      'turns at, high',
      `mu* (${unit})`,
      `mu (${unit})`,
      `sigma (${unit})`,
    ],
    ...swings.map((swing) => {
      const effect = morris?.effects.find(({ path }) => path === swing.path);
      return [
        swing.path,
        plainText(swing.value),
        ...[swing.low, swing.high].flatMap(({ at, difference }) => [
          plainText(at),
          difference?.value ?? '',
          difference?.low ?? '',
          difference?.high ?? '',
        ]),
        swing.turns ?? '',
        swing.turning?.value ?? '',
        swing.turning?.low ?? '',
        swing.turning?.high ?? '',
        effect?.muStar.value ?? '',
        effect?.mu ?? '',
        effect?.sigma ?? '',
      ];
    }),
  ]);
}
