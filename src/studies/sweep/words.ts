import { type Answer, fullestWithin } from '../../analysis/answer.js';
import { levelText } from '../../analysis/effect-words.js';
import { INSTRUMENT_TIME, measureName, sizeOf, sizeText } from '../../analysis/words.js';
import { nameIn } from '../../scenario/describe.js';
import { estimateLine, percentText, plainSpaces, SHARE } from '../../wording/numbers.js';
import { listed, quoted } from '../../wording/phrases.js';
import type { Sweep, SweepBest } from './results.js';
import { whereGainsGo } from './where-gains-go.js';

/** What the answer is made from. */
type Found = Pick<Sweep, 'ranges' | 'strategies' | 'best' | 'leftOut' | 'cells' | 'level'>;
/** With what is said besides: that a pace is varied and nothing makes haste worse. */
type Said = Found & { readonly freeHaste: readonly string[] };

/** The best of what was tried, in plain words, with what shows no clear difference from it. */
export function sweepAnswer(found: Said, currency: string): Answer {
  const { strategies, ranges, leftOut } = found;
  const [following, still] = [true, false].map((follows) => strategies.filter((each) => each.follows === follows));
  const stillSentence = `${listed(still.map(quoted))} ${still.length === 1 ? 'does' : 'do'} not follow ${listed(ranges.map(nameOf))}: what a strategy sets itself stays as it is; name it with --strategy to sweep it.`;
  return {
    headline:
      following.length === 0
        ? [stillSentence]
        : headlineOf(
            following.map(({ name }) => name),
            found,
            currency,
          ),
    remarks: [
      ...found.freeHaste,
      ...(leftOut.length === 0
        ? []
        : [
            `${leftOut.length} of the points are no scenario and were left out, the first because ${leftOut[0].reason}.`,
          ]),
    ],
    findings: [
      ...following.flatMap(({ name }) => [
        ...strategySentences(name, found, currency),
        ...whereGainsGo(name, found, currency),
      ]),
      ...(still.length === 0 || following.length === 0 ? [] : [stillSentence]),
      'The best are picked among the settings tried after the fact; swap-or-hop tune finds one with a stated probability to be right.',
    ],
    decided: following.length > 0,
  };
}

function nameOf({ description }: Pick<Sweep['ranges'][number], 'description'>): string {
  return quoted(nameIn(description));
}

function bestOf(name: string, respect: SweepBest['respect'], { best }: Found): SweepBest | undefined {
  return best.find((each) => each.strategy === name && each.respect === respect);
}

/** Where each strategy takes the least time, and of one alone where it yields most. */
function headlineOf(names: readonly string[], found: Found, currency: string): readonly string[] {
  const draft = (said: readonly string[], hasYield: boolean) =>
    said.flatMap((name, place) => {
      const [time, gain] = [bestOf(name, 'time', found), bestOf(name, 'yield', found)];
      if (time === undefined || gain === undefined) return [];
      const { value, interval } = sizeOf('time', time.estimate, currency);
      const level = place === 0 ? levelText(found.level) : '';
      const ends = interval === '' ? '' : ` (${level}${interval})`;
      const most = hasYield ? `; it yields most, ${percentText(gain.estimate.value)}, ${at(gain, found)}` : '';
      return [
        `${quoted(name)} takes the least ${INSTRUMENT_TIME}, ${value}${ends}, ${at(time, found)}, with a yield of ${percentText(time.yield.value)}${unfinished(time)}${most}.`,
      ];
    });
  return fullestWithin([
    draft(names, true),
    draft(names, false),
    draft(names.slice(0, 2), false),
    draft(names.slice(0, 1), false),
  ]);
}

/** The least or the most of every other measure. */
function strategySentences(name: string, found: Found, currency: string): readonly string[] {
  const [time, gain] = [bestOf(name, 'time', found), bestOf(name, 'yield', found)];
  if (time === undefined || gain === undefined) return [];
  const isTradedOff = time.yield.high < gain.estimate.low;
  const least = (['time', 'operatorTime', 'cost'] as const).flatMap((respect) => {
    const best = bestOf(name, respect, found);
    if (best === undefined) return [];
    return [
      `${quoted(name)}: the least ${measureName(respect)}, ${sizeText(respect, best.estimate, currency)}, comes ${at(best, found)}${alike(best)}, with a yield of ${percent(best.yield)}${unfinished(best)}.`,
    ];
  });
  return [
    ...least,
    `${quoted(name)}: the highest yield, ${percent(gain.estimate)}, comes ${at(gain, found)}${alike(gain)}${isTradedOff ? '; less time comes with less yield' : ''}.`,
  ];
}

/** `at 1.5 of “Pace of scanning”` */
function at({ settings }: SweepBest, { ranges }: Found): string {
  return `at ${listed(settings.map((setting, axis) => `${setting} of ${nameOf(ranges[axis])}`))}`;
}

/** Times and cost are soon low where the work is left undone. */
function unfinished({ finishes }: SweepBest): string {
  if (finishes >= 1) return '';
  return `; but ${percentText(1 - finishes)} of its campaigns are never finished, and count with what they had come to by then`;
}

const MOST_SAID = 3;

function alike({ alike: others }: SweepBest): string {
  if (others.length === 0) return '';
  const said = others.slice(0, MOST_SAID).map((settings) => settings.join(', '));
  const more = others.length - said.length;
  return ` (no clear difference that matters: ${[...said, ...(more > 0 ? [`${more} more`] : [])].join('; ')})`;
}

function percent(share: SweepBest['yield']): string {
  return plainSpaces(estimateLine(share, SHARE));
}
