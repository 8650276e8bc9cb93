import { measureName } from '../../analysis/words.js';
import type { Known } from './charts/parameter-uncertainty.js';
import { numberText, SHARE, spanText, plainSpaces } from '../../wording/numbers.js';
import { measureScale } from '../../report/measure-scale.js';
import { block, fits, wrapped } from '../../report/terminal-columns.js';
import { capital } from '../../wording/phrases.js';

/** What random variation does and what parameter uncertainty adds, in time. `names` are those of the strategies. */
export function unknownText(known: Known, names: readonly string[], width: number): string {
  const { strategies } = known.parameterUncertainty;
  const what = measureName('time');
  const scale = measureScale('time', known);
  const spans = strategies
    .filter(({ measure }) => measure === 'time')
    .map(({ randomVariation, withParameterUncertainty }, place) => [
      names[place],
      plainSpaces(spanText(randomVariation, scale)),
      plainSpaces(spanText(withParameterUncertainty, scale)),
    ]);
  const table = block(['strategy', 'by random variation alone', 'with parameter uncertainty'], spans, 1, 2);
  const lines = spans.map(([name, alone, both]) =>
    wrapped(`${name}: ${alone} by random variation alone, ${both} with parameter uncertainty`, width),
  );
  const level = numberText(known.confidence.level, SHARE);
  return [
    wrapped(`${capital(what)} of one campaign, middle ${level}`, width),
    fits(table, width) ? table : lines.join('\n'),
  ].join('\n');
}
