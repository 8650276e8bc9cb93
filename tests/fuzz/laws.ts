import type { CampaignModel } from '../../src/campaign/model.js';
import type { Outcome } from '../../src/campaign/outcome.js';

const added = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

/** What an outcome breaks of the laws that any campaign keeps, in words; nothing where it keeps them all. */
export function brokenLaws(model: CampaignModel, outcome: Outcome): readonly string[] {
  const broken: string[] = [];
  const hold = (kept: boolean, law: string): void => {
    if (!kept) broken.push(law);
  };
  outcome.split.forEach((parts, instrument) => {
    hold(added(parts) === outcome.elapsed[instrument], 'the time split adds up to what elapsed, to the microsecond');
    hold(Math.min(...parts) >= 0, 'no part of the time is below zero');
  });
  for (const tally of [outcome, outcome.cut]) {
    if (tally === null) continue;
    const { good, undetectedBad, givenUp, missing } = tally;
    hold(
      good + undetectedBad + givenUp + missing === model.images.length,
      'good, undetected bad, given up and missing are all images',
    );
    hold(tally.yield >= 0 && tally.apparentYield >= tally.yield - 1e-12, 'no more is good than seems so');
    hold(tally.apparentYield <= 1 + 1e-12, 'no more than all is good');
  }
  hold(!outcome.isFinished || outcome.missing === 0, 'nothing is missing of a plan that is finished');
  const { totalTime, instrumentTime, operatorTime, overrun, confirmedAt, cost, takes, tips } = outcome;
  for (const value of [totalTime, instrumentTime, operatorTime, overrun, confirmedAt, cost, takes, tips])
    hold(Number.isFinite(value) && value >= 0, 'every number is one, and not below zero');
  hold(outcome.tipRecords.length === tips, 'every tip has its record');
  hold(tips >= new Set(outcome.tipRecords.map(({ kind }) => kind)).size, 'a kind that was used took a tip at least');
  return broken;
}

/** Places of plain data where a number is none, or where code and not data stands. */
export function unspeakable(data: unknown, path = ''): readonly string[] {
  if (typeof data === 'number') return Number.isFinite(data) ? [] : [`${path} is ${String(data)}`];
  if (typeof data === 'function' || typeof data === 'symbol') return [`${path} is a ${typeof data}`];
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([key, value]: [string, unknown]) => unspeakable(value, `${path}.${key}`));
}

/** Words that a programming language has for what is not there; `known` are texts of the user that may hold them. */
export function strayWords(text: string, known: readonly string[] = []): readonly string[] {
  const own = known.reduce((rest, each) => (each === '' ? rest : rest.replaceAll(each, '')), text);
  return own.match(/\b(?:NaN|Infinity|undefined|null)\b|\[object [A-Z]/g) ?? [];
}
