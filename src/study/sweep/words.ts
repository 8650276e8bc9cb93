import { INSTRUMENT_TIME, listed, OPERATOR_TIME, quoted, sizeText } from '../words.js';
import type { Sweep, SweepBest } from './results.js';
import { whereGainsGo } from './where-gains-go.js';

/** What the answer is made from. */
type Found = Pick<Sweep, 'ranges' | 'strategies' | 'best' | 'leftOut' | 'cells'>;
/** With what is said first: that a pace is varied and nothing makes haste worse. */
type Said = Found & { readonly freeHaste: readonly string[] };

/** The best of what was tried, in plain words, with what is not told apart from it. */
export function sweepAnswer(found: Said, currency: string): Sweep['answer'] {
  const { strategies, ranges, leftOut } = found;
  const still = strategies.filter(({ follows }) => !follows);
  const paths = listed(ranges.map(({ path }) => path));
  const sentences = [
    ...found.freeHaste,
    ...strategies
      .filter(({ follows }) => follows)
      .flatMap(({ name }) => [...strategySentences(name, found, currency), ...whereGainsGo(name, found, currency)]),
    ...(still.length === 0
      ? []
      : [
          `${listed(still.map(quoted))} ${still.length === 1 ? 'does' : 'do'} not follow ${paths}: what a strategy sets itself stays as it is; name it with --strategy to sweep it.`,
        ]),
    ...(leftOut.length === 0
      ? []
      : [`${leftOut.length} of the points are no scenario and were left out, the first because ${leftOut[0].reason}.`]),
    'The best are picked among the settings tried after the fact; `swap-or-hop tune` finds one with a stated chance to be right.',
  ];
  return { sentences, decided: strategies.some(({ follows }) => follows) };
}

function strategySentences(name: string, found: Found, currency: string): readonly string[] {
  const of = (respect: SweepBest['respect']) =>
    found.best.find((best) => best.strategy === name && best.respect === respect);
  const [time, operator, gain, cost] = [of('time'), of('operatorTime'), of('yield'), of('cost')];
  if (time === undefined || operator === undefined || gain === undefined || cost === undefined) return [];
  const isTradedOff = time.yield.high < gain.estimate.low;
  return [
    `${quoted(name)}: the least ${INSTRUMENT_TIME}, ${sizeText('time', time.estimate, currency)}, comes with ${at(time, found)}${alike(time)}, at a yield of ${percent(time.yield)}${unfinished(time)}.`,
    `${quoted(name)}: the least ${OPERATOR_TIME}, ${sizeText('operatorTime', operator.estimate, currency)}, comes with ${at(operator, found)}${alike(operator)}, at a yield of ${percent(operator.yield)}${unfinished(operator)}.`,
    `${quoted(name)}: the highest yield, ${percent(gain.estimate)}, comes with ${at(gain, found)}${alike(gain)}${isTradedOff ? '; time is bought with data, and what the one is worth against the other is for the reader to weigh' : ''}.`,
    `${quoted(name)}: the least cost, ${sizeText('cost', cost.estimate, currency)}, comes with ${at(cost, found)}${alike(cost)}, at a yield of ${percent(cost.yield)}${unfinished(cost)}.`,
  ];
}

function at({ settings }: SweepBest, { ranges }: Found): string {
  return listed(settings.map((setting, axis) => `${ranges[axis].path} = ${setting}`));
}

/** Times and cost are soon low where the work is left undone. */
function unfinished({ finishes }: SweepBest): string {
  if (finishes >= 1) return '';
  return `; but ${percent({ value: 1 - finishes, low: 0, high: 0 })} of its campaigns are never finished, and count with what they had come to by then`;
}

const MOST_SAID = 3;

function alike({ alike: others }: SweepBest): string {
  if (others.length === 0) return '';
  const said = others.slice(0, MOST_SAID).map((settings) => settings.join(', '));
  const more = others.length - said.length;
  return ` (not told apart: ${[...said, ...(more > 0 ? [`${more} more`] : [])].join('; ')})`;
}

function percent({ value, low, high }: SweepBest['yield']): string {
  const say = (share: number) => (100 * share).toFixed(1);
  return high > low ? `${say(value)} % (${say(low)} to ${say(high)})` : `${say(value)} %`;
}
