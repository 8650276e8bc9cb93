import { effectsText, noEffectText } from '../../analysis/effect-words.js';
import { COMPARED } from '../../analysis/compared-measures.js';
import { isClear, matters } from '../../analysis/interest.js';
import type { Difference, StrategySummary } from '../../analysis/results.js';
import { timeText } from '../../wording/numbers.js';
import { capital, listed, quoted } from '../../wording/phrases.js';
import {
  type Compared,
  differenceOf,
  partingCompletion,
  probabilityText,
  type RestsOn,
  withinText,
} from './headline-sentence.js';

const TIMES: readonly Difference['measure'][] = ['time', 'operatorTime'];

/** What a strategy comes to against the first one in every measure, and where preparation is counted. */
export function comparisonSentence(strategy: StrategySummary, found: Compared, restsOn: RestsOn): string {
  const first = found.strategies[0];
  const completion = partingCompletion(strategy.name, found);
  const measures = COMPARED.filter((measure) => completion === undefined || !TIMES.includes(measure));
  const differences = measures.flatMap((measure) => differenceOf(strategy.name, measure, found) ?? []);
  const manner = {
    currency: found.currency,
    level: found.confidence.level,
    restsOnUnmeasured: ({ measure }: Pick<Difference, 'measure'>) => restsOn({ strategy: strategy.name, measure }),
  };
  const told = differences.filter(matters);
  const none = noEffectText(
    differences.filter((each) => !matters(each)),
    manner,
  );
  const sizes = [
    ...(told.length === 0 ? [] : [`${effectsText(told, manner)} than ${quoted(first)}`]),
    ...(none === '' ? [] : [told.length === 0 ? `shows, against ${quoted(first)}, ${none}` : none]),
  ].join('; ');
  const parted = completion === undefined ? '' : `${completionText(strategy, found)} `;
  return `${parted}${quoted(strategy)} ${sizes}.${preparationText(strategy, first, found)}`;
}

/** `“hop” completes within 2 sessions in 62 % of campaigns (95 % interval 59 to 65), “swap” in 79 % (77 to 81), so no time is ranked.` */
function completionText(strategy: StrategySummary, found: Compared): string {
  const first = found.strategies[0];
  const completion = partingCompletion(strategy.name, found) ?? 'finishes';
  const [own, other] = [strategy, first].map((each, place) =>
    probabilityText(each[completion] ?? each.finishes, found, { interval: true, level: place === 0 }),
  );
  return `${quoted(strategy)} completes${withinText(completion, found)} in ${own} of campaigns, ${quoted(first)} in ${other}, so no time is ranked.`;
}

/** Activities that a change of tip or region is made of. */
const CHANGING = ['exchanging', 'hopping', 'locating and relocating', 'warming up and settling'] as const;

/** Where preparation is counted and whether it is paid back, as the split of the instrument's time shows it; nothing where both prepare alike. */
function preparationText(strategy: StrategySummary, first: StrategySummary, found: Compared): string {
  if (strategy.workflow === first.workflow && strategy.preparesOnBench === first.preparesOnBench) return '';
  const where = [strategy, first]
    .filter(({ workflow }) => workflow === 'hop')
    .map(
      (each) =>
        `preparation of ${quoted(each)} is counted ${each.preparesOnBench ? 'at the bench, in operator time and cost, not in instrument time' : 'at the instrument, in instrument time too'}`,
    );
  const counted = listed(where);
  return ` ${capital(counted)}; ${splitText(strategy, first, found)}.`;
}

/** Seconds below which a difference in preparing and setting up is not worth a word. */
const TELLING = 30;

function splitText(strategy: StrategySummary, first: StrategySummary, found: Compared): string {
  const saved = CHANGING.reduce((sum, activity) => sum + first.split[activity] - strategy.split[activity], 0);
  const preparing = strategy.split['preparing and setting up'] - first.split['preparing and setting up'];
  const side = (seconds: number) => `${timeText(Math.abs(seconds))} ${seconds < 0 ? 'less' : 'more'}`;
  const changing = `changing tips and regions ${Math.abs(preparing) < TELLING ? 'takes ' : ''}${side(-saved)}`;
  if (Math.abs(preparing) < TELLING) return changing;
  const sums = `preparing and setting up takes ${side(preparing)} at the instrument, ${changing}`;
  const time = differenceOf(strategy.name, 'time', found);
  if (
    strategy.preparesOnBench ||
    preparing <= 0 ||
    time === undefined ||
    !isClear(time.estimate) ||
    partingCompletion(strategy.name, found) !== undefined
  )
    return sums;
  if (time.verdict === 'more' && preparing > saved)
    return `${sums}: preparation costs more time than the changes it saves`;
  return time.verdict === 'less' && preparing < saved ? `${sums}: preparation is paid back in time` : sums;
}
