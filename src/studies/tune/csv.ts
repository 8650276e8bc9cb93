import type { Estimate } from '../../statistics/estimate.js';
import type { TuneResult } from './results.js';
import { settingText } from '../../analysis/vary/varied.js';
import { INSTRUMENT_TIME, OPERATOR_TIME } from '../../analysis/words.js';
import { csv } from '../../report/csv.js';
import { plainUnit } from '../../report/measure-scale.js';
import { plainText } from '../../report/text.js';
import { allSettings } from './tables.js';

/** `tune.csv`: a row for each setting compared, the present one among them; units stand in the header. */
export function tuneCsv(result: TuneResult): string {
  const { goal, scenario, varied } = result;
  const unit = plainUnit(goal.unit, scenario.currency);
  const three = (name: string, of: string) => [`${name} (${of})`, `${name}, low (${of})`, `${name}, high (${of})`];
  const values = (estimate: Estimate | null) =>
    estimate === null ? ['', '', ''] : [estimate.value, estimate.low, estimate.high];
  return csv([
    [
      ...varied.map(({ path }) => plainText(path)),
      ...three(`goal: ${goal.title}`, unit),
      ...three('worse than the winner', unit),
      ...three(INSTRUMENT_TIME, 's'),
      ...three(OPERATOR_TIME, 's'),
      ...three('yield', 'share'),
      ...three('undetected bad', 'share'),
      ...three('tips', 'number'),
      ...three('cost', plainText(scenario.currency)),
      'finished (share)',
      'meets the yield',
      'standing',
      'present',
    ],
    ...allSettings(result).map((each) => [
      ...each.settings.map((setting) => plainText(settingText(setting))),
      ...values(each.goal),
      ...values(each.loss),
      ...values(each.measures.time),
      ...values(each.measures.operatorTime),
      ...values(each.measures.yield),
      ...values(each.measures.undetectedBadShare),
      ...values(each.measures.tips),
      ...values(each.measures.cost),
      each.finishes,
      each.meets ?? '',
      each.standing,
      each.isPresent ? 'yes' : 'no',
    ]),
  ]);
}
