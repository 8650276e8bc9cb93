import type { Sensitivity } from './results.js';
import { csv } from '../../report/csv.js';
import { plainUnit } from '../../report/measure-scale.js';
import { plainText } from '../../report/text.js';

/** `sensitivity.csv`: a row a value, both ends of its range and its Sobol’ indices. */
export function sensitivityCsv({ measure, scenario, swings, atOnce }: Sensitivity): string {
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
      'reverses at',
      'reverses at, low',
      'reverses at, high',
      'first-order index',
      'total index',
    ],
    ...swings.map((swing) => {
      const weight = atOnce?.weights.find(({ path }) => path === swing.path);
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
        weight?.first ?? '',
        weight?.total ?? '',
      ];
    }),
  ]);
}
