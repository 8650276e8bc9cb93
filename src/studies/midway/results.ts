import type { KnownCampaign } from '../../execution/midway/known.js';
import type { WorkflowName } from '../../scenario/schema/scenario.js';
import type { Calendar } from '../../analysis/results.js';
import type { Granted, StudyRecord } from '../../analysis/about.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Difference, QuantileEstimate, StrategySummary } from '../../analysis/results.js';

export const MIDWAY_FORMAT = 'swap-or-hop midway';

/** How a campaign that is under way may go on. Times are seconds from now. */
export interface MidwayResult extends StudyRecord<typeof MIDWAY_FORMAT> {
  /** The strategy that is followed, and its workflow. */
  readonly strategy: string;
  readonly workflow: WorkflowName;
  /** The table that told how the campaign stands. */
  readonly state: { readonly file: string; readonly sha256: string };
  readonly now: Now;
  readonly replications: number;
  readonly stopping: string;
  readonly confidence: { readonly level: number; readonly comparisons: number };
  readonly hasBookings: boolean;
  /** What is left of the granted time, from now; null where none is granted. */
  readonly allocation: Granted | null;
  readonly calendar: Calendar;
  /** Ways to go on, with common random numbers: the first one carries on by the rules. Counted from now, as a comparison has them. */
  readonly strategies: readonly StrategySummary[];
  /** Ends of sessions on the clock, in the order of `finishedBySession`, as many as the slowest way needs. */
  readonly sessionEnds: readonly string[];
  /** Of every other way from the first. */
  readonly differences: readonly Difference[];
  /** Seconds to the end, of all replications; null where so many are never finished. At 0.1, 0.5 and 0.9. */
  readonly remaining: readonly Remaining[];
  readonly supplies: readonly SupplyOutlook[];
  /** Images given up for want of attempts, mean, and the chance that there is any beyond those given up by now. */
  readonly givenUp: { readonly mean: Estimate; readonly any: Estimate };
  /** Chance that the next image would start below its accept on the tip that is on, unnoticed so far; null where none is on that counts as sound. */
  readonly spoiledUnnoticed: Estimate | null;
  /** Share of replications in which no past of a tip fitted what was seen, so that it was taken as sound now. */
  readonly guessed: number;
  readonly rules: RulesNow;
  readonly assumed: { readonly values: number; readonly of: number };
  readonly warnings: readonly string[];
}

/** How the campaign stands. */
export interface Now {
  /** Such as `Tue 14:00`. */
  readonly clock: string;
  readonly images: {
    readonly planned: number;
    readonly kept: number;
    readonly unreviewed: number;
    readonly toRetake: number;
    readonly givenUp: number;
    readonly notYet: number;
  };
  readonly instruments: readonly InstrumentNow[];
}

export interface InstrumentNow {
  readonly standing: KnownCampaign['instruments'][number]['standing'];
  /** The sample that is on, such as `sample 2`; null where there is only one, or none is on. */
  readonly sample: string | null;
  /** From 1, within its sample. */
  readonly region: number | null;
  readonly tip: TipNow | null;
  readonly parked: readonly TipNow[];
  /** The images that come next, at most a dozen, as people name them within their sample. */
  readonly next: readonly NextImages[];
}

/** Images of one sample that come one after the other; `sample` is null where there is only one. */
export interface NextImages {
  readonly sample: string | null;
  readonly images: readonly string[];
}

export interface TipNow {
  readonly kind: string;
  readonly images: number;
  /** Millimetres, hours. */
  readonly path: number;
  readonly hours: number;
  readonly approaches: number;
  /** Scans since its last passed check; null where it never passed one. */
  readonly checkedAgo: number | null;
  readonly radius: number | null;
  readonly judged: string;
}

export interface Remaining extends QuantileEstimateOrNone {
  readonly probability: number;
  /** The moment on the clock at which that is; null where it is never. */
  readonly clock: string | null;
}

type QuantileEstimateOrNone = Omit<QuantileEstimate, 'value'> & { readonly value: number | null };

/** How long one thing at hand lasts. */
export interface SupplyOutlook {
  /** Such as `sharp tip`, `chip`, `specimen`. */
  readonly what: string;
  readonly left: number;
  /** Seconds from running out to the delivery; null where no more come. */
  readonly restock: number | null;
  /** Mean number used from now on. */
  readonly used: Estimate;
  /** Nine in ten campaigns use no more than so many. */
  readonly usedAtMost: number;
  /** Chance that all that is left is used; where none is left, that another one is needed. */
  readonly usedUp: Estimate;
  /** Chance that the work ends unfinished because another one is needed and none is left. */
  readonly ends: Estimate;
}

/** What the strategy says is done at the instrument, as the run sheet tells it. */
export interface RulesNow {
  readonly check: { readonly every: number; readonly onNew: boolean; readonly repeatSuspects: boolean } | null;
  /** Such as `20 images`. */
  readonly after: string | null;
  /** Nanometres. */
  readonly radiusAbove: number | null;
  readonly reviewBy: 'operator' | 'automatic' | 'nobody';
  readonly watch: { readonly by: 'operator' | 'automatic'; readonly causes: readonly string[] } | null;
  readonly attempts: number;
  readonly cleanings: number;
  readonly reconditionings: number;
  /** Passes that want a new tip. */
  readonly critical: readonly string[];
  readonly unattended: 'none' | 'scanning' | 'hopping';
}
