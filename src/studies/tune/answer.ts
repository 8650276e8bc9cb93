import { type Answer, fullestWithin } from '../../analysis/answer.js';
import { levelText } from '../../analysis/effect-words.js';
import { adviceOf, type Speaking } from '../../analysis/worth/words.js';
import { nameIn } from '../../scenario/describe.js';
import type { Setting } from '../../scenario/ranges.js';
import { listed, quoted } from '../../wording/phrases.js';
import { sizeOf, sizeText, WHY_UNFINISHED } from '../../analysis/words.js';
import { settingText } from '../../analysis/vary/varied.js';
import type { Estimate } from '../../statistics/estimate.js';
import { isAscending } from './order.js';
import type { SavedWorth, SettingsWorth, TunedSetting, TuneResult } from './results.js';
import {
  moneyScale,
  numberText,
  percentText,
  percentAsked,
  PERCENTAGE_POINTS,
  timeText,
  withUnit,
} from '../../wording/numbers.js';

/** What an answer is made from. */
export type TuneFound = Omit<TuneResult, 'answer'>;

/**
 * The setting to take, then what stands below it. `decided` is false where nothing may be built on it.
 * @param waiting how long the winner waits for drift to settle, as a sentence; empty where that is not varied
 * @param freeHaste that nothing makes haste worse, where that is so
 */
export function tuneAnswer(found: TuneFound, waiting: string, freeHaste: readonly string[]): Answer {
  const { winner, settings } = found;
  if (winner === null) {
    const isCompared = found.procedure.replications.comparison > 0;
    const [first, ...findings] = isCompared ? withoutWinner(found) : soFarSentences(found);
    return { headline: [first], remarks: freeHaste, findings, decided: false };
  }
  const best = settings[winner];
  const isFlat = isFlatIn(found);
  const first = isFlat ? flatSentence(best, found) : winnerSentence(best, found);
  const present = presentSentence(found);
  const promise = promiseSentence(found);
  const headline = fullestWithin([[first, ...present, promise], [first, ...present], [first]]);
  return {
    decided: !isFlat && found.procedure.isDecided,
    headline,
    remarks: [
      ...freeHaste,
      ...unfinishedSentence(best),
      ...undetectedSentence(best, found),
      ...worthSentences(found),
      ...(found.snippet === null
        ? []
        : ['What to write into the scenario is in setting.yaml, in the folder of the report.']),
    ],
    findings: [
      ...[...present, promise].filter((sentence) => !headline.includes(sentence)),
      ...(isFlat || waiting === '' ? [] : [waiting]),
      ...(isFlat ? [] : notToldSentences(found)),
      ...betterSentence(found),
      ...worstSentence(found),
      ...constraintSentence(found),
      ...(isFlat ? [] : edgeSentence(best, found)),
    ],
  };
}

/** Settings as a sentence says them: `20 images for “…” and 2 for “…”`. */
export function settingsText(settings: readonly Setting[], { varied }: Pick<TuneResult, 'varied'>): string {
  return listed(
    settings.map((setting, place) => `${settingText(setting)} for ${quoted(nameIn(varied[place].description))}`),
  );
}

/** Settings where it is clear of what: `20 images`; several with commas between. */
export function shortText(settings: readonly Setting[]): string {
  return settings.map(settingText).join(', ');
}

/** Size of a difference, or of what a setting comes to, with its interval, before which its level may stand. */
export function goalText(
  estimate: Estimate,
  found: Pick<TuneFound, 'goal' | 'scenario' | 'confidence'>,
  as: { readonly isDifference?: true; readonly level?: true } = {},
): string {
  const { value, interval } = sizeOf(found.goal.unit, estimate, found.scenario.currency);
  const said =
    found.goal.unit === 'yield' && as.isDifference !== true ? value.replace(/ percentage points?/u, ' %') : value;
  if (interval === '') return said;
  return `${said} (${as.level === true ? levelText(found.confidence.level) : ''}${interval})`;
}

/** Every other setting that meets the yield shows no clear difference from the winner; what a search left out may well be. */
function isFlatIn({ settings, winner, looked }: TuneFound): boolean {
  const others = settings.filter(({ meets }, place) => place !== winner && (meets === null || meets === 'meets'));
  return looked.length === 0 && others.length > 0 && others.every(({ standing }) => standing === 'no clear difference');
}

function winnerSentence(best: TunedSetting, found: TuneFound): string {
  const comes = best.goal === null ? '' : ` ${found.goal.title} ${goalText(best.goal, found, { level: true })}`;
  const gain = found.goal.unit === 'yield' ? '' : `, yield ${percentText(best.measures.yield.value)}`;
  return `For ${found.goal.wanted}, take ${settingsText(best.settings, found)} in ${quoted(found.strategy.name)}:${comes}${gain}.`;
}

function flatSentence(best: TunedSetting, found: TuneFound): string {
  const losses = found.settings.flatMap(({ loss, standing }) =>
    standing === 'no clear difference' && loss !== null ? [loss] : [],
  );
  const most = Math.max(0, ...losses.map(({ high }) => high));
  const share = best.goal === null || best.goal.value === 0 ? '' : ` (${percentText(most / best.goal.value)})`;
  const bound =
    most === 0
      ? 'they come to the same in every campaign'
      : `none is worse by more than ${sizeOnly(most, found)}${share}`;
  const others = found.constraint === null ? 'No other setting' : 'No other setting that has the yield wanted';
  return `${others} differs clearly from ${settingsText(best.settings, found)} in ${found.goal.title}: ${bound}.`;
}

function sizeOnly(size: number, found: TuneFound): string {
  return goalText({ value: size, low: size, high: size }, found, { isDifference: true }).replace(/ \(.*/u, '');
}

function promiseSentence(found: TuneFound): string {
  const { confidence, zone, isDecided } = found.procedure;
  if (!isDecided)
    return `The selection ended at its limit of campaigns, so that its chance of ${percentAsked(confidence)} to be right is not promised; what is said here rests on the intervals alone.`;
  const { compared, size } = found.space;
  const others = compared === size ? 'no other setting tried' : `none of the ${compared} settings compared`;
  // What misses the yield may well be better.
  const having = found.constraint === null ? '' : ' that clearly has the yield wanted';
  return `With a chance of at least ${percentAsked(confidence)}, ${others}${having} is better by ${percentAsked(zone.share)} (${sizeOnly(zone.size, found)}) or more.`;
}

function presentSentence(found: TuneFound): readonly string[] {
  const { present } = found;
  const named = `The present setting (${shortText(present.settings)})`;
  if (present.standing === 'winner') return [`${named} is the winner itself.`];
  const missing =
    present.meets === 'fails'
      ? ' It misses the yield that is wanted.'
      : present.meets === 'unclear'
        ? ' Whether it has the yield that is wanted is unclear.'
        : '';
  if (present.loss === null) return [`${named} keeps nothing good.${missing}`];
  const share = present.lossShare === null ? '' : `, ${percentText(present.lossShare)}`;
  const size = goalText(present.loss, found, { isDifference: true });
  if (present.loss.low > 0) return [`${named} is worse by ${size}${share}.${missing}`];
  if (present.loss.high < 0)
    return [
      missing === ''
        ? `${named} is better still, by ${reversed(present.loss, found)}${share}: keep it.`
        : `${named} is better than the winner by ${reversed(present.loss, found)}${share}.${missing}`,
    ];
  return [`${named} shows no clear difference from the winner: no gain by a change is shown.${missing}`];
}

/** What to measure before one chooses. */
function worthSentences(found: TuneFound): readonly string[] {
  const { worth, settings, winner } = found;
  if (worth === null || winner === null) return [];
  if (worth.values.length === 0)
    return ['Nothing that the settings do not set themselves is uncertain: every value has a source or is chosen.'];
  const { draws, chosen } = worth;
  const now = worth.settings[chosen].settings;
  const other =
    shortText(now) === shortText(settings[winner].settings)
      ? ''
      : `Over ${draws} draws of all that is uncertain, ${quoted(shortText(now))} is best on average. `;
  return [other + adviceOf(worth, speakingOf(found, worth)).join(' ')];
}

/** How worth is said in the unit of the goal. */
export function speakingOf(
  found: Pick<TuneResult, 'goal' | 'varied' | 'scenario' | 'procedure' | 'confidence'>,
  { settings, chosen }: SettingsWorth,
): Speaking<SavedWorth> {
  const { unit } = found.goal;
  return {
    saved: ({ saved }) => saved,
    text: (amount) =>
      unit === 'time' || unit === 'operatorTime'
        ? timeText(amount)
        : unit === 'cost'
          ? withUnit(numberText(amount), moneyScale(found.scenario.currency))
          : withUnit(numberText(amount, PERCENTAGE_POINTS), PERCENTAGE_POINTS),
    verb: unit === 'yield' ? 'gain' : 'save',
    small: found.procedure.zone.size,
    level: found.confidence.level,
    choice: settingsText(settings[chosen].settings, found),
  };
}

const MOST_NAMED = 8;

function notToldSentences(found: TuneFound): readonly string[] {
  const notTold = found.settings.filter(({ standing }) => standing === 'no clear difference');
  if (notTold.length === 0) {
    if (found.constraint === null) return ['Every other setting that was compared is clearly different from it.'];
    const isAlone = !found.settings.some(({ standing }) => standing === 'worse' || standing === 'better');
    return [
      isAlone
        ? 'No other setting that was compared is known to have the yield wanted.'
        : 'Every other setting that was compared and has the yield wanted is clearly different from it.',
    ];
  }
  const named = notTold.slice(0, MOST_NAMED).map(({ settings }) => shortText(settings));
  const rest = notTold.length - named.length;
  const list = `No clear difference from the winner: ${named.join('; ')}${rest > 0 ? `; and ${rest} more` : ''}.`;
  const valleys = valleysOf(found);
  return valleys < 2
    ? [list]
    : [list, `These lie in ${valleys} separate ranges with worse settings between: the response has several minima.`];
}

/** Runs of neighbouring settings that are the winner or no clear difference from it, along one ordered value. */
function valleysOf({ varied, settings }: TuneFound): number {
  if (varied.length !== 1 || !isAscending(varied[0])) return 1;
  const isGood = settings.map(({ standing }) => standing === 'winner' || standing === 'no clear difference');
  return isGood.filter((good, place) => good && (place === 0 || settings[place - 1].standing === 'worse')).length;
}

function betterSentence(found: TuneFound): readonly string[] {
  const better = found.settings.filter(({ standing }) => standing === 'better');
  return better.slice(0, 1).map(({ settings, loss }) => {
    const size = loss === null ? '' : ` by ${reversed(loss, found)}`;
    return `With fresh random numbers ${shortText(settings)} proved better than the winner${size}.`;
  });
}

/** The size of a gain, which is a loss below zero. */
function reversed({ value, low, high }: Estimate, found: TuneFound): string {
  return goalText({ value: -value, low: -high, high: -low }, found, { isDifference: true });
}

function worstSentence(found: TuneFound): readonly string[] {
  const worse = found.settings.filter(({ standing, loss }) => standing === 'worse' && loss !== null);
  const worst = worse.toSorted((a, b) => (b.loss?.value ?? 0) - (a.loss?.value ?? 0)).at(0);
  if (worst?.loss === undefined || worst.loss === null) return [];
  const share = worst.lossShare === null ? '' : `, ${percentText(worst.lossShare)}`;
  return [
    `A wrong choice costs up to ${goalText(worst.loss, found, { isDifference: true })}${share}, at ${shortText(worst.settings)}.`,
  ];
}

function constraintSentence({ constraint, settings }: TuneFound): readonly string[] {
  if (constraint === null) return [];
  const origin =
    constraint.origin === 'given' ? '' : ' (a little below that of the present setting, since no other was asked for)';
  const failing = settings.filter(({ meets }) => meets === 'fails').length;
  const open = settings.filter(({ meets }) => meets === 'unclear').length;
  const rest = open === 0 ? '' : ` For ${open} it is unclear; these were left out.`;
  return [
    `A yield of at least ${percentAsked(constraint.yieldAtLeast)} is wanted${origin}: ${failing} of ${settings.length} settings fail it; the indifference zone about it is ${pointsText(constraint.tolerance)}.${rest}`,
  ];
}

function pointsText(share: number): string {
  return `${Number((100 * share).toPrecision(2))} percentage points`;
}

/** Where it was interrupted before the comparison. */
function soFarSentences(found: TuneFound): readonly string[] {
  const { settings, present, goal, constraint } = found;
  const sign = goal.sense === 'least' ? 1 : -1;
  const having = settings.filter(({ meets }) => meets === null || meets === 'meets');
  const best = having
    .flatMap((each) => (each.goal === null ? [] : [{ ...each, goal: each.goal }]))
    .toSorted((a, b) => sign * (a.goal.value - b.goal.value))
    .at(0);
  const now =
    present.goal === null
      ? ''
      : ` The present setting (${shortText(present.settings)}) has ${goalText(present.goal, found)}.`;
  const among = constraint === null ? '' : ' of those that have the yield wanted, by its interval alone';
  return [
    best === undefined
      ? `No setting is known so far to have what is wanted.${now}`
      : `So far ${settingsText(best.settings, found)} has the best mean of ${goal.title}${among}: ${goalText(best.goal, found)}.${now}`,
    ...(constraint === null
      ? []
      : [
          `A yield of at least ${percentAsked(constraint.yieldAtLeast)} is wanted; ${having.length} of ${settings.length} settings are known so far to have it.`,
        ]),
    'Which setting is the best is open: the best of several means owes some of that to chance.',
  ];
}

function withoutWinner(found: TuneFound): readonly string[] {
  const { constraint, settings, present } = found;
  if (constraint === null) throw new Error('Without a constraint there is always a winner.');
  const most = settings.reduce((ahead, each) =>
    each.measures.yield.value > ahead.measures.yield.value ? each : ahead,
  );
  const open = settings.filter(({ meets }) => meets === 'unclear');
  const highest = `The highest is ${yieldText(most.measures.yield)}, at ${settingsText(most.settings, found)}`;
  return [
    open.length === 0
      ? `No setting tried meets a yield of at least ${percentAsked(constraint.yieldAtLeast)}.`
      : `No setting is known to meet a yield of at least ${percentAsked(constraint.yieldAtLeast)}; for ${open.length} of ${settings.length} it is unclear.`,
    `${highest}; the present setting (${shortText(present.settings)}) has ${yieldText(present.measures.yield)}.`,
    'Ask for less, widen the ranges, or change what makes images bad: nothing is chosen here.',
  ];
}

function yieldText(estimate: Estimate): string {
  return sizeText('yield', estimate, '').replace(' percentage points', ' %');
}

/** A setting that wins by leaving more bad images unnoticed is said to. */
function undetectedSentence(best: TunedSetting, { present }: TuneFound): readonly string[] {
  const [here, before] = [best.measures.undetectedBadShare, present.measures.undetectedBadShare];
  if (!(here.low > before.high)) return [];
  return [
    `Mind that with it more images are kept that are bad and that nobody notices: ${yieldText(here)} of those planned, against ${yieldText(before)} at present.`,
  ];
}

/** A winner at an end of its range, unless that is zero or nothing, beyond which there is none. */
function edgeSentence({ settings }: TunedSetting, { varied }: TuneFound): readonly string[] {
  const edges = varied.filter(({ settings: tried }, place) => {
    const own = settings[place];
    const isEnd = [tried[0], tried[tried.length - 1]].some((end) => settingText(end) === settingText(own));
    return isAscending({ settings: tried }) && tried.length > 1 && isEnd && own !== null && own !== 0;
  });
  if (edges.length === 0) return [];
  return [
    `The winner lies at an end of what was tried of ${edges.map(({ path }) => path).join(' and ')}: a wider range may hold a better one.`,
  ];
}

function unfinishedSentence({ finishes }: TunedSetting): readonly string[] {
  if (finishes >= 1) return [];
  return [
    `With it ${percentText(1 - finishes)} of campaigns are never finished, because ${WHY_UNFINISHED}; they count with what they had come to by then.`,
  ];
}
