import { csv } from '../../report/csv.js';
import { plainText } from '../../report/text.js';
import type { Worth } from '../../analysis/worth/results.js';
import type { WorthSummary } from './results.js';

/** `worth.csv`: a row a value, a group, and a number of records. */
export function worthCsv({ values, records, scenario }: WorthSummary): string {
  const cells = ({ hours, cost, wrong }: Worth) => [
    ...[hours.value, hours.low, hours.high],
    ...[cost.value, cost.low, cost.high],
    wrong,
  ];
  return csv([
    [
      'path',
      'what is known',
      'records',
      ...['hours', 'hours, low', 'hours, high'],
      ...['', ', low', ', high'].map((end) => `cost (${scenario.currency})${end}`),
      'probability of a wrong choice',
      'first-order index',
      'total index',
    ],
    ...values.map((value) => [
      value.path,
      plainText(value.description),
      '',
      ...cells(value),
      value.indices.first,
      value.indices.total,
    ]),
    ...records.map((each) => [each.path, plainText(each.of), each.count, ...cells(each), '', '']),
  ]);
}
