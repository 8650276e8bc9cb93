import { quoted } from '../../../wording/phrases.js';
import { measureName, signedSpan } from '../../../analysis/words.js';
import type { KnownDifference, ParameterUncertainty } from '../../../analysis/parameter-uncertainty.js';

/** How a comparison words parameter uncertainty. */
export interface Said {
  readonly parameterUncertainty: ParameterUncertainty;
  readonly currency: string;
}

/** One sentence for each of these differences, which the span of parameter uncertainty leaves open. */
export function openSentences(open: readonly KnownDifference[], said: Said): readonly string[] {
  return open.map(({ strategy, measure, parameterUncertainty, otherSign }) => {
    const span = signedSpan(measure, parameterUncertainty, said.currency);
    const share = `${Math.floor(100 * otherSign + 0.5)} %`;
    return `The difference in ${measureName(measure)} of ${quoted(strategy)} may be anything from ${span} within ${inputsText(said.parameterUncertainty)}, and has the other sign in ${share} of draws.`;
  });
}

/** Where no clear difference that ranks is left open. */
export function keptSentence({ parameterUncertainty }: Said): string {
  return `Every clear difference in time and data quality keeps its sign over the middle 95 % of ${inputsText(parameterUncertainty)}, drawn together ${parameterUncertainty.draws} times.`;
}

/** What one strategy alone may come to. */
export function aloneSpanSentence({ parameterUncertainty, ...said }: Said): string {
  const time = parameterUncertainty.strategies.find(({ measure }) => measure === 'time');
  if (time === undefined) return '';
  const text = (span: { readonly low: number; readonly high: number }) =>
    signedSpan('time', span, said.currency, 'amount');
  return `One campaign takes ${text(time.randomVariation)} by random variation alone, and ${text(time.withParameterUncertainty)} within ${inputsText(parameterUncertainty)} too; the mean may be anything from ${text(time.parameterUncertainty)}.`;
}

/** `the uncertainty of “sharp: wear” and “sharp, breakage: life”`, or how many there are. */
function inputsText({ inputs }: ParameterUncertainty): string {
  const names = inputs.map(({ description }) => quoted(description));
  return `the uncertainty of ${names.length <= 2 ? names.join(' and ') : `${names.length} inputs`}`;
}
