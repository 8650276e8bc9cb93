import { COMPARED, COMPLETIONS } from '../../analysis/compared-measures.js';
import { differenceIn, LEVEL, valuesOf } from '../../analysis/differences.js';
import { estimateIn } from '../../analysis/estimate.js';
import { pairedInterval } from '../../statistics/interval.js';
import type { Collector } from '../../execution/collector.js';
import type { Against, Change } from '../messages.js';

/** A setting with the campaigns run of it so far, a collector a strategy. */
export interface Collected {
  readonly label: string;
  readonly names: readonly string[];
  readonly collectors: readonly Collector[];
}

/** What changed from one setting to another, for each strategy that both have by that name; null where they have none. */
export function against(from: Collected, to: Collected): Against | null {
  const pairs = to.names.flatMap((name, place) => {
    const before = from.names.indexOf(name);
    return before < 0 ? [] : [{ name, before: from.collectors[before], after: to.collectors[place] }];
  });
  const replications = Math.min(...pairs.flatMap(({ before, after }) => [before.count, after.count]));
  if (!Number.isFinite(replications) || replications < 2) return null;
  return {
    from: from.label,
    to: to.label,
    replications,
    changes: pairs.flatMap(({ name, before, after }) =>
      [...COMPLETIONS, ...COMPARED].flatMap((measure): readonly Change[] => {
        const [earlier, later] = [before, after].map((each) => valuesOf(each, measure));
        if (earlier.length === 0 || later.length === 0) return [];
        const cut = [later, earlier].map((each) => each.subarray(0, replications));
        const estimate = estimateIn(differenceIn(measure, pairedInterval(cut[0], cut[1], LEVEL)));
        return [{ strategy: name, measure, estimate }];
      }),
    ),
  };
}
