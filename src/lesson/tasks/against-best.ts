import { pairedInterval } from '../../statistics/interval.js';
import { average, type Numbers } from '../../statistics/numbers.js';
import { LEVEL } from '../../analysis/differences.js';

/** Something tried, with numbers whose mean is what is to be least: one a campaign, all with common random numbers. */
export interface Tried<Point> {
  readonly point: Point;
  readonly numbers: Numbers;
}

/** Each of them, with whether its mean is clearly more than the least one; paired. */
export function againstBest<Point>(tried: readonly Tried<Point>[]): readonly (Point & { readonly isWorse: boolean })[] {
  const first = ({ numbers }: Tried<Point>, count: number) => Array.from(numbers).slice(0, count);
  const best = tried.reduce((least, each) => (average(each.numbers) < average(least.numbers) ? each : least));
  return tried.map((each) => {
    // While campaigns are run, some have had more than others.
    const count = Math.min(each.numbers.length, best.numbers.length);
    return {
      ...each.point,
      isWorse: each !== best && pairedInterval(first(each, count), first(best, count), LEVEL).low > 0,
    };
  });
}
