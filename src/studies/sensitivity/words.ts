import { type Answer, fullestWithin } from '../../analysis/answer.js';
import { dataIn, dataWords, speaksFor } from '../../analysis/beside.js';
import { comparedSentence } from '../../analysis/effect-words.js';
import { placeText } from '../../analysis/vary/axis.js';
import { measureName, sizeText } from '../../analysis/words.js';
import { nameIn } from '../../scenario/describe.js';
import type { Estimate } from '../../statistics/estimate.js';
import { percentText } from '../../wording/numbers.js';
import { capital, counted, listed, quoted } from '../../wording/phrases.js';
import type { AtOnce, Sensitivity, Swing } from './results.js';
import { isSameWay } from './swings.js';

/** What the answer is made from. */
type Found = Pick<
  Sensitivity,
  'between' | 'measure' | 'difference' | 'smallest' | 'better' | 'beside' | 'isAll' | 'swings' | 'atOnce' | 'level'
>;

/** Which values decide, in plain words. `decided` is false where the verdict reverses within what is only assumed. */
export function sensitivityAnswer(found: Found, currency: string): Answer {
  const { swings, better } = found;
  const turning = better === null ? [] : swings.filter(({ turns }) => turns !== null);
  const untried = swings.filter(({ low, high }) => low.notTried !== null || high.notTried !== null);
  return {
    headline: headlineOf(found, turning, currency),
    remarks: [],
    findings: [
      ...dataSentences(found, currency),
      ...turnSentences(found, turning),
      ...mostSentences(found, currency),
      ...(found.atOnce === null ? [] : atOnceSentences(found, found.atOnce)),
      ...(untried.length === 0
        ? []
        : [
            `At an end of its range ${listed(untried.map(nameOf))} could not be tried, as that is no scenario: see the table.`,
          ]),
    ],
    decided: better !== null && turning.length === 0 && !isWeighed(found),
  };
}

function headlineOf(found: Found, turning: readonly Swing[], currency: string): readonly string[] {
  const { between, measure, difference, smallest, level, better, swings } = found;
  const restsOnUnmeasured = () => turning.length > 0;
  const sentence = comparedSentence(between, [{ measure, estimate: difference, smallest }], {
    ...{ currency, level, restsOnUnmeasured },
  });
  if (better === null) return [sentence, 'So there is no verdict that could reverse.'];
  if (turning.length === 0) {
    const tried = triedText(found);
    return [
      sentence,
      swings.length === 0
        ? 'Nothing is assumed, so there was nothing to try.'
        : swings.length === 1
          ? `That does not reverse within the range of ${tried}.`
          : `None of ${tried} reverses that within its range, tried one at a time.`,
    ];
  }
  const [first] = turning;
  const others = turning.length - 1;
  const more = others === 0 ? [] : [`It rests on ${counted(others, 'other value')} too.`];
  const where = `This rests on ${nameOf(first)} being ${first.value}${sourceText(first)}; ${placeOf(first, difference)}`;
  return fullestWithin([
    [sentence, `${where} ${outcomeOf(first)}.`, ...more],
    [sentence, `This rests on ${nameOf(first)}.`, ...more],
  ]);
}

function nameOf({ description }: Pick<Swing, 'description'>): string {
  return quoted(nameIn(description));
}

function sourceText({ standing }: Swing): string {
  return standing === 'assumed' ? ' (no source)' : '';
}

function triedText({ swings, isAll }: Found): string {
  const [one, many] = isAll
    ? ['value that is not chosen', 'values that are not chosen']
    : ['assumed value', 'assumed values'];
  return swings.length === 1 ? `the only ${one}` : `the ${counted(swings.length, one, many)}`;
}

/** `above 0.326 (0.298 to 0.362)`, or `at 30 min` where the place is not known. */
function placeOf({ turning, low, high }: Swing, here: Estimate): string {
  if (turning !== null) return `${turning.side} ${placeText(turning, turning)}`;
  const ends = [low, high].filter(({ difference }) => difference !== null && !isSameWay(difference, here));
  return `at ${ends.map(({ at }) => at).join(' or ')}`;
}

function outcomeOf({ turns }: Swing): string {
  return turns === 'reversed' ? 'it reverses' : 'it is no longer clear';
}

/** Whether what differs in the data speaks against who is better in time or cost. */
function isWeighed({ measure, beside, better, between }: Found): boolean {
  return better !== null && measure !== 'yield' && !speaksFor(dataIn(beside), better === between[1]);
}

function dataSentences(found: Found, currency: string): readonly string[] {
  const { better, measure, beside, between } = found;
  const differing = measure === 'yield' ? [] : dataIn(beside);
  if (better === null || differing.length === 0) return [];
  const data = capital(dataWords(differing, between[1], currency));
  return isWeighed(found)
    ? [`${data}: ${measureName(measure)} alone does not decide between them.`]
    : [`${data}: the data speak for ${quoted(better)} too.`];
}

const MOST_SAID = 4;

function turnSentences(found: Found, turning: readonly Swing[]): readonly string[] {
  if (turning.length === 0) return [];
  const some = turning
    .slice(0, MOST_SAID)
    .map((swing) => `${nameOf(swing)} (${swing.value}): ${placeOf(swing, found.difference)} ${outcomeOf(swing)}`);
  const more = turning.length - some.length;
  return [
    `Of ${triedText(found)}, tried one at a time, ${turning.length} ${turning.length === 1 ? 'changes' : 'change'} the verdict within ${turning.length === 1 ? 'its range' : 'their ranges'}: ${some.join('; ')}${more > 0 ? `; and ${more} more, see the table` : ''}.`,
  ];
}

function mostSentences({ swings, measure }: Found, currency: string): readonly string[] {
  const most = swings.filter((swing) => swing.most > 0).slice(0, 3);
  if (most.length === 0) return [];
  const items = most.map(({ most: size, description }) => {
    const exact = { value: size, low: size * 0.95, high: size * 1.05 };
    return `${nameOf({ description })} (${sizeText(measure, exact, currency).replace(/ \(.*/u, '')})`;
  });
  return [`Taken one at a time, the difference changes most with ${listed(items)}.`];
}

/** Share of the variance from which a value is named, and from which its total must be larger than what it explains alone to be said to interact. */
const [NAMED, INTERPLAY] = [0.05, 0.05];

/** Where the draws explain less than this, it is said what that leaves open. */
const ENOUGH = 0.9;

function atOnceSentences({ measure, better }: Found, atOnce: AtOnce): readonly string[] {
  const { weights, otherSign, explained, draws, notDrawn } = atOnce;
  const left = notDrawnSentence(notDrawn);
  const strong = weights.filter(({ total }) => total >= NAMED).slice(0, 3);
  if (strong.length === 0)
    return [`With all drawn at once, ${draws} times, no single one stands out from random variation.`, ...left];
  const items = strong.map(({ description, total }) => `${nameOf({ description })} (${percentText(total)})`);
  const interplay = strong.filter(({ first, total }) => total > first + INTERPLAY);
  // What shows no clear difference as the values stand has no sign of which there is another.
  const [share, low, high] = [otherSign.value, otherSign.low, otherSign.high].map(percentText);
  return [
    `With all drawn at once, ${listed(items)} ${strong.length === 1 ? 'weighs' : 'weigh'} most in the variance of the expected difference in ${measureName(measure)}, interactions included${interplay.length === 0 ? '' : `; ${listed(interplay.map(nameOf))} ${interplay.length === 1 ? 'interacts' : 'interact'} with others`}.`,
    ...(better === null
      ? []
      : [`The expected difference has the other sign in ${share} (${low} to ${high}) of the draws.`]),
    ...(explained >= ENOUGH
      ? []
      : [
          `${draws} draws explain ${percentText(explained)} of that variance; to which values the rest belongs they do not tell, so that a total may be larger by as much.`,
        ]),
    ...left,
  ];
}

function notDrawnSentence(notDrawn: AtOnce['notDrawn']): readonly string[] {
  if (notDrawn.length === 0) return [];
  const [named, more] = [notDrawn.slice(0, MOST_SAID), notDrawn.length - MOST_SAID];
  const list = more > 0 ? `${named.map(nameOf).join(', ')} and ${more} more` : listed(named.map(nameOf));
  return [
    `Tried one at a time only, since ${notDrawn.length === 1 ? 'it stands' : 'they stand'} at nothing, in one strategy alone or at an end that is no scenario: ${list}.`,
  ];
}
