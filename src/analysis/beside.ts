import { bonferroni, pairedInterval } from '../statistics/interval.js';
import { differenceIn, LEVEL, measureOf, verdictIn } from './differences.js';
import { estimateIn } from './estimate.js';
import { COMPARED, type PairMeasure } from './compared-measures.js';
import { listed, quoted } from '../wording/phrases.js';
import { measureName, sizeText } from './words.js';
import type { Pair } from './vary/curve.js';
import type { Difference } from './results.js';

/** A difference beside the one that two strategies are set against each other by. */
export type Beside = Pick<Difference, 'measure' | 'estimate' | 'verdict'>;

/** What else differs between two strategies, judged together: second less first. */
export function besideAt({ first, second }: Pair, replications: number, measure: PairMeasure): readonly Beside[] {
  const others = COMPARED.filter((each) => each !== measure);
  return others.map((each) => {
    const name = measureOf(each);
    const [from, to] = [first, second].map(({ values }) => values[name].subarray(0, replications));
    const estimate = estimateIn(differenceIn(each, pairedInterval(to, from, bonferroni(LEVEL, others.length))));
    return { measure: each, estimate, verdict: verdictIn(estimate) };
  });
}

/** Differences in the data, which time or money must be weighed against. */
export function dataIn(beside: readonly Beside[]): readonly Beside[] {
  return beside.filter(
    ({ measure, verdict }) =>
      (measure === 'yield' || measure === 'undetectedBadShare') && verdict !== 'no clear difference',
  );
}

/** Whether differences in the data all speak for one of the two: the second, or else the first. */
export function speaksFor(data: readonly Beside[], isSecond: boolean): boolean {
  return data.every(({ measure, verdict }) => (verdict === (measure === 'yield' ? 'more' : 'less')) === isSecond);
}

/** `“hop” has 0.9 percentage points (0.4 to 1.4) less yield`; `differing` from `dataIn`, at least one. */
export function dataWords(differing: readonly Beside[], second: string, currency: string): string {
  const said = differing.map(
    ({ measure, estimate, verdict }) => `${sizeText(measure, estimate, currency)} ${verdict} ${measureName(measure)}`,
  );
  return `${quoted(second)} has ${listed(said)}`;
}

/** `takes less instrument time`, for the better of the two. */
export function betterWords(measure: PairMeasure): string {
  switch (measure) {
    case 'time':
    case 'operatorTime':
      return `takes less ${measureName(measure)}`;
    case 'cost':
      return 'costs less';
    case 'yield':
      return 'has the higher yield';
  }
}
