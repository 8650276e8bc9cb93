import { dataIn, dataWords, speaksFor } from '../breakeven/beside.js';
import { betterWords } from '../breakeven/words.js';
import { listed, measureName, quoted, sizeText } from '../words.js';
import { placeText } from '../vary/axis.js';
import type { Estimate } from '../results.js';
import type { Morris, Sensitivity, Swing } from './results.js';
import { isSameWay } from './swings.js';

/** What the answer is made from. */
type Found = Pick<
  Sensitivity,
  'between' | 'measure' | 'difference' | 'better' | 'beside' | 'isAll' | 'swings' | 'morris'
>;

/** Which values decide, in plain words. `decided` is false where the verdict turns within what is only assumed. */
export function sensitivityAnswer(found: Found, currency: string): Sensitivity['answer'] {
  const { swings, better } = found;
  const turning = swings.filter(({ turns }) => turns !== null);
  const untried = swings.filter(({ low, high }) => low.notTried !== null || high.notTried !== null);
  const sentences = [
    ...standingSentences(found, currency),
    ...(better === null ? [] : turnSentences(found, turning)),
    ...mostSentences(found, currency),
    ...(found.morris === null ? [] : morrisSentences(found, found.morris)),
    ...(untried.length === 0
      ? []
      : [
          `At an end of its range ${listed(untried.map(({ path }) => path))} could not be tried, as that is no scenario: see the table.`,
        ]),
  ];
  return { sentences, decided: better !== null && turning.length === 0 && !isWeighed(found) };
}

function standingSentences(found: Found, currency: string): readonly string[] {
  const { between, better, measure, difference } = found;
  const [a, b] = between.map(quoted);
  if (better === null)
    return [
      `${a} and ${b} are not told apart in ${measureName(found.measure)} with the values as they stand, so there is no verdict that could turn.`,
    ];
  const other = between.find((name) => name !== better) ?? better;
  const data = measure === 'yield' ? [] : dataIn(found.beside);
  return [
    `With all values as they stand, ${quoted(better)} ${betterWords(found)} than ${quoted(other)}, by ${sizeText(measure, difference, currency)}.`,
    ...(data.length === 0 ? [] : [dataSentence(found, dataWords(data, between[1], currency))]),
  ];
}

/** Whether what differs in the data speaks against who is better in time or cost. */
function isWeighed({ measure, beside, better, between }: Found): boolean {
  return measure !== 'yield' && !speaksFor(dataIn(beside), better === between[1]);
}

function dataSentence(found: Found, data: string): string {
  if (!isWeighed(found)) return `The data speak for it too: ${data}.`;
  return `Yet ${data}: what the data are worth against ${measureName(found.measure)} is for the reader to weigh.`;
}

const MOST_SAID = 4;

function turnSentences({ swings, isAll, difference }: Found, turning: readonly Swing[]): readonly string[] {
  const tried = `${swings.length} ${isAll ? 'values that are not chosen' : 'values that are only assumed'}`;
  if (swings.length === 0) return ['Nothing is only assumed, so there was nothing to try.'];
  if (turning.length === 0)
    return [`This turns at neither end of the range of any of the ${tried}, tried one at a time.`];
  const reversed = turning.filter(({ turns }) => turns === 'reversed');
  const hidden = turning.filter(({ turns }) => turns !== 'reversed');
  return [
    ...(reversed.length === 0 ? [] : [`The verdict turns if ${said(reversed, difference)}.`]),
    ...(hidden.length === 0 ? [] : [`It is no longer told apart if ${said(hidden, difference)}.`]),
    `Of the ${tried}, taken one at a time, ${turning.length} ${turning.length === 1 ? 'does' : 'do'} so within ${turning.length === 1 ? 'its range' : 'their ranges'}.`,
  ];
}

function said(swings: readonly Swing[], here: Estimate): string {
  const some = swings.slice(0, MOST_SAID).map((swing) => condition(swing, here));
  const more = swings.length - some.length;
  return `${some.join(', or if ')}${more > 0 ? ` (and so with ${more} more: see the table)` : ''}`;
}

/** `“usual time of relocate” (…, 5 min) is above 8.1 min (7.2 to 9.4)` */
function condition({ description, path, value, turning, low, high }: Swing, here: Estimate): string {
  const what = `“${description}” (${path}, ${value})`;
  if (turning !== null) return `${what} is ${turning.side} ${placeText(turning, turning)}`;
  const ends = [low, high].filter(({ difference }) => difference !== null && !isSameWay(difference, here));
  return `${what} is ${ends.map(({ at }) => at).join(' or ')}`;
}

function mostSentences({ swings, measure }: Found, currency: string): readonly string[] {
  const most = swings.filter((swing) => swing.most > 0).slice(0, 3);
  if (most.length === 0) return [];
  const items = most.map(({ path, most: size }) => {
    const exact = { value: size, low: size * 0.95, high: size * 1.05 };
    return `${path} (${sizeText(measure, exact, currency).replace(/ \(.*/u, '')})`;
  });
  return [`Taken one at a time, the difference changes most with ${listed(items)}.`];
}

/** Spread of an effect, against its size, from which the value is said to act in interplay. */
const INTERPLAY = 0.5;

function morrisSentences({ swings, better }: Found, morris: Morris): readonly string[] {
  const { effects, otherSign, noise, replications } = morris;
  const [share, low, high] = [otherSign.value, otherSign.low, otherSign.high].map((each) => (100 * each).toFixed(0));
  const strong = effects.filter(({ muStar }) => muStar.low > 0 && muStar.value > 2 * noise).slice(0, 3);
  if (strong.length === 0)
    return [`With all ${swings.length} anywhere within their ranges at once, no single one stands out from the luck.`];
  const interplay = strong.filter(({ muStar, sigma }) => sigma > INTERPLAY * muStar.value);
  // What is not told apart as the values stand has no sign of which there is another.
  const turned =
    better === null
      ? ''
      : `; the mean of ${replications} campaigns had the other sign at ${share} % (${low} to ${high}) of the points tried, in part by luck`;
  return [
    `With all of them anywhere within their ranges at once, ${listed(strong.map(({ path }) => path))} ${strong.length === 1 ? 'weighs' : 'weigh'} most${interplay.length === 0 ? '' : `, ${interplay.length === strong.length ? '' : `${listed(interplay.map(({ path }) => path))} of them `}with an effect that hangs on the others or on where in the range it is`}${turned}.`,
  ];
}
