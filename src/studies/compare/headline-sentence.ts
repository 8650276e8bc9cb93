import { fullestWithin } from '../../analysis/answer.js';
import { COMPLETIONS, type Completion } from '../../analysis/compared-measures.js';
import { effectsText, levelText, noEffectNames, noEffectText } from '../../analysis/effect-words.js';
import { matters } from '../../analysis/interest.js';
import type { Difference, Reversal, StrategySummary, Summary } from '../../analysis/results.js';
import { SHARE, estimateText, percentText, plainSpaces } from '../../wording/numbers.js';
import { listed, quoted } from '../../wording/phrases.js';

/** What is said of strategies is made from this. */
export type Compared = Pick<Summary, 'strategies' | 'differences' | 'confidence' | 'allocation'> & {
  readonly currency: string;
};

/** Whether a difference of a strategy rests on something unmeasured. */
export type RestsOn = (on: Pick<Reversal, 'strategy' | 'measure'>) => boolean;

/** Measures that a strategy is ranked by, the better being less of it but for the yield. */
export const RANKED = ['time', 'operatorTime', 'yield', 'undetectedBadShare'] as const;

export function differenceOf(
  strategy: string,
  measure: Difference['measure'],
  { differences }: Pick<Compared, 'differences'>,
): Difference | undefined {
  return differences.find((difference) => difference.strategy === strategy && difference.measure === measure);
}

/** The completion by which a strategy differs from the first one, that within the allocation before the other. */
export function partingCompletion(strategy: string, found: Pick<Compared, 'differences'>): Completion | undefined {
  return COMPLETIONS.find((measure) => matters(differenceOf(strategy, measure, found)));
}

export function withinText(completion: Completion, { allocation }: Pick<Compared, 'allocation'>): string {
  return completion === 'finishes' ? '' : ` within ${allocation?.text ?? 'the granted time'}`;
}

/** How much of a headline is said: what does not fit stands in the table. */
interface Fullness {
  readonly intervals: 'all' | 'first' | 'none';
  readonly measures: number;
  /** Whether strategies that differ in nothing are left out. */
  readonly onlyDiffering: boolean;
  /** Whether only the quickest of those that differ is named. */
  readonly onlyBest?: true;
}

const FULLNESS: readonly Fullness[] = [
  { intervals: 'all', measures: RANKED.length, onlyDiffering: false },
  { intervals: 'first', measures: RANKED.length, onlyDiffering: false },
  { intervals: 'first', measures: 2, onlyDiffering: true },
  { intervals: 'none', measures: 1, onlyDiffering: true },
  { intervals: 'first', measures: 1, onlyDiffering: true, onlyBest: true },
  { intervals: 'none', measures: 1, onlyDiffering: true, onlyBest: true },
];

/**
 * Who completes more often where that differs; else who is better at what, by how much: as fully as the words allow.
 * @param room words that may be used
 */
export function headlineSentences(found: Compared, restsOn: RestsOn, room: number): readonly string[] {
  const drafts = FULLNESS.map((fullness) => [
    ...completionSentences(found, restsOn, fullness),
    ...measuredSentences(found, restsOn, fullness),
  ]);
  return fullestWithin(drafts, room);
}

/**
 * `“hop” completes within 1 session more often than “swap”: 60 % of campaigns (95 % interval 58 to 61) against 5 % (4 to 6).`, or of
 * several, the surest first: `“hop (by kind)” and “hop” complete within 1 session more often than “swap”: 98 % (95 % interval 96 to 99)
 * and 24 % of campaigns against 5 %.`
 */
function completionSentences(found: Compared, restsOn: RestsOn, { intervals }: Fullness): readonly string[] {
  const [first, ...others] = found.strategies;
  return COMPLETIONS.flatMap((completion) =>
    (['more', 'less'] as const).flatMap((way) => {
      const parted = others
        .filter(
          ({ name }) =>
            partingCompletion(name, found) === completion && differenceOf(name, completion, found)?.verdict === way,
        )
        .toSorted((a, b) => shareOf(b, completion).value - shareOf(a, completion).value);
      if (parted.length === 0) return [];
      const leads =
        way === 'more' || !others.some(({ name }) => differenceOf(name, completion, found)?.verdict === 'more');
      const isOpen = parted.some(({ name }) => restsOn({ strategy: name, measure: completion }));
      const what = completion === 'finishes' ? ' the plan' : withinText(completion, found);
      const shares = parted.map((each, place) =>
        probabilityText(shareOf(each, completion), found, {
          interval: intervals === 'all' || (intervals === 'first' && place === 0 && leads),
          level: place === 0,
        }),
      );
      const other = probabilityText(shareOf(first, completion), found, {
        interval: intervals === 'all' && parted.length === 1,
        level: false,
      });
      const verb = isOpen ? 'may complete' : parted.length === 1 ? 'completes' : 'complete';
      return [
        `${listed(parted.map(quoted))} ${verb}${what} ${way} often than ${quoted(first)}: ${listed(shares)} of campaigns against ${other}.`,
      ];
    }),
  );
}

function shareOf(strategy: StrategySummary, completion: Completion): StrategySummary['finishes'] {
  return strategy[completion] ?? strategy.finishes;
}

/** `79 % (95 % interval 77 to 80)` */
export function probabilityText(
  estimate: StrategySummary['finishes'],
  { confidence }: Pick<Compared, 'confidence'>,
  say: { readonly interval: boolean; readonly level: boolean },
): string {
  const { value: rounded, interval } = estimateText(estimate, SHARE);
  // None and all are exact: zeros behind the point would read as a measurement.
  const value = estimate.value === 0 || estimate.value === 1 ? percentText(estimate.value) : rounded;
  const ends = interval === '' || !say.interval ? '' : ` (${say.level ? levelText(confidence.level) : ''}${interval})`;
  return plainSpaces(`${value}${ends}`);
}

/** `“hop” takes 29 min less instrument time (95 % interval 26 to 31) than “swap”.` */
function measuredSentences(found: Compared, restsOn: RestsOn, fullness: Fullness): readonly string[] {
  const [first, ...others] = found.strategies;
  const compared = others
    .filter(({ name }) => partingCompletion(name, found) === undefined)
    .toSorted((a, b) =>
      fullness.onlyBest === true ? a.measures.instrumentTime.value - b.measures.instrumentTime.value : 0,
    );
  const manner = {
    currency: found.currency,
    level: fullness.intervals === 'none' ? null : found.confidence.level,
  };
  const all = compared.flatMap((strategy): readonly { readonly text: string; readonly differs: boolean }[] => {
    const differences = RANKED.flatMap((measure) => differenceOf(strategy.name, measure, found) ?? []);
    const told = differences.filter(matters).slice(0, fullness.measures);
    const restsOnUnmeasured = ({ measure }: Pick<Difference, 'measure'>) =>
      restsOn({ strategy: strategy.name, measure });
    if (told.length > 0)
      return [{ text: `${quoted(strategy)} ${effectsText(told, { ...manner, restsOnUnmeasured })}`, differs: true }];
    if (fullness.onlyDiffering) return [];
    const none = fullness.intervals === 'all' ? noEffectText(differences, manner) : noEffectNames(differences);
    return [{ text: `${quoted(strategy)} shows ${none}`, differs: false }];
  });
  const said = fullness.onlyBest === true ? all.slice(0, 1) : all;
  if (said.length === 0)
    return compared.length === 0 ? [] : ['No strategy differs from the first one by what matters.'];
  const [only] = said;
  if (said.length === 1)
    return [only.differs ? `${only.text} than ${quoted(first)}.` : `${only.text}, against ${quoted(first)}.`];
  return [`Compared with ${quoted(first)}: ${said.map(({ text }) => text).join('; ')}.`];
}
