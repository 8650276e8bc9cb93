import { measureName, quoted, signedSpan } from '../words.js';
import type { ComparedMeasure } from '../compared-measures.js';
import type { KnownDifference, NotKnowing } from './results.js';

/** How a comparison says what is not known. */
export interface Said {
  readonly notKnowing: NotKnowing;
  readonly currency: string;
}

/** One sentence for each of these differences, which the span of what is not known leaves open. */
export function openSentences(open: readonly KnownDifference[], said: Said): readonly string[] {
  return open.map(({ strategy, measure, notKnowing, otherSign }) => {
    const span = signedSpan(measure, notKnowing, said.currency);
    const share = `${Math.floor(100 * otherSign + 0.5)} %`;
    return `the difference in ${measureName(measure)} of ${quoted(strategy)} may be anything from ${span} within ${inputsText(said.notKnowing)}, and has the other sign in ${share} of draws${chiefText(said.notKnowing, strategy, measure)}.`;
  });
}

/** Where no clear difference that ranks is left open. */
export function keptSentence({ notKnowing }: Said): string {
  return `Every clear difference in time and data quality keeps its sign over the middle 95 % of ${inputsText(notKnowing)}, drawn together ${notKnowing.draws} times.`;
}

/** What one strategy alone may come to. */
export function aloneSpanSentence({ notKnowing, ...said }: Said): string {
  const time = notKnowing.strategies.find(({ measure }) => measure === 'time');
  if (time === undefined) return '';
  const text = (span: { readonly low: number; readonly high: number }) =>
    signedSpan('time', span, said.currency, false);
  return `One campaign takes ${text(time.luckAlone)} by luck alone, and ${text(time.luckAndNotKnowing)} within ${inputsText(notKnowing)} too; the mean may be anything from ${text(time.notKnowing)}.`;
}

/** `what is not known of “sharp: wear” and “sharp, breakage: life”`, or how many there are. */
function inputsText({ inputs }: NotKnowing): string {
  const names = inputs.map(({ description }) => quoted(description));
  return `what is not known of ${names.length <= 2 ? names.join(' and ') : `${names.length} inputs`}`;
}

/** The input that explains most of a span, where there are several. */
function chiefText({ inputs, logNext }: NotKnowing, strategy: string, measure: ComparedMeasure): string {
  if (inputs.length === 1) return '';
  const shares = logNext.flatMap(({ description, effects }) =>
    effects
      .filter((effect) => effect.strategy === strategy && effect.measure === measure)
      .map(({ share }) => ({ description, share: share ?? 0 })),
  );
  const chief = shares.reduce<(typeof shares)[number] | null>(
    (most, each) => (most === null || each.share > most.share ? each : most),
    null,
  );
  return chief === null || chief.share === 0
    ? ''
    : `; ${quoted(chief.description)} alone leaves a span ${widthText(chief.share)}`;
}

/** `86 % as wide`: a share of a width, which of several inputs may add up to more than all. Chance may make it larger than it is. */
export function widthText(share: number): string {
  return share >= 0.995 ? 'as wide' : `${Math.floor(100 * share + 0.5)} % as wide`;
}
