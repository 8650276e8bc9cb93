/**
 * What a comparison found, as data. `summary.json` is this object; the page, the charts, the terminal table and the
 * methods text are made from it and from nothing else. Times are seconds, paths millimetres, radii nanometres, money a
 * plain number of the scenario's currency, shares between 0 and 1. `null` stands where there is no such number.
 */

import type { LeftState } from '../probe/causes.js';
import type { Activity } from '../campaign/activities.js';
import type { BadScans } from '../campaign/ledger.js';
import type { Estimate } from '../statistics/estimate.js';
import type { SpoiledBy } from '../probe/tip.js';
import type { Standing } from '../scenario/register.js';
import type { WorkflowName } from '../scenario/schema/scenario.js';
import type { Measure } from '../execution/measures.js';
import type { Answer } from './answer.js';
import type { LeadTime } from './lead-time.js';
import type { ComparedMeasure, Completion } from './compared-measures.js';
import type { ParameterUncertainty } from './parameter-uncertainty.js';
import type { Granted, StudyRecord } from './about.js';

export const SUMMARY_FORMAT = 'swap-or-hop summary';

/** A sample quantile with its distribution-free interval; an end is null where there are too few replications for it. */
export interface QuantileEstimate {
  readonly probability: number;
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** Measures that are a share of the images planned, and chances. */
const SHARES: readonly string[] = [
  'yield',
  'apparentYield',
  'undetectedBadShare',
  'withinAllocation',
  'finishes',
] satisfies readonly (Measure | Completion)[];

/** Whether a measure, by its name here or in a comparison, lies between 0 and 1. */
export function isShare(measure: string): boolean {
  return SHARES.includes(measure);
}

export interface MeasureSummary extends Estimate {
  readonly standardDeviation: number;
  /** At probabilities 0.1, 0.5, 0.9. */
  readonly quantiles: readonly QuantileEstimate[];
}

/** The booked sessions of a campaign. */
export interface Calendar {
  /** Seconds from a Monday 00:00 to the moment from which all times count. */
  readonly startsAt: number;
  /** In seconds from that moment, in order; empty where the instrument is always booked. */
  readonly sessions: readonly { readonly start: number; readonly end: number }[];
}

/** The probability of completion by a moment; `time` counts from the start of the experiment. */
export interface FinishPoint extends Estimate {
  readonly time: number;
}

/** One image of the plan over all replications of a strategy. The four shares add up to 1. */
export interface ImageSummary {
  /** Number in the plan, from 1. */
  readonly image: number;
  /** Name of its sample. */
  readonly sample: string;
  /** From 1, counted through all samples. */
  readonly region: number;
  readonly pass: string;
  /** Mean quality of the kept attempt, 0 where none was kept. */
  readonly quality: number;
  readonly good: number;
  readonly undetectedBad: number;
  readonly givenUp: number;
  readonly missing: number;
  readonly takes: number;
  /** Absent where nothing drifts. */
  readonly drift?: ImageDriftSummary;
}

/** What drift did to an image of the plan. */
export interface ImageDriftSummary {
  /** Mean factor q_drift on the quality of the kept attempt; null where none ever was. */
  readonly factor: number | null;
  readonly badScans: BadScans;
}

export interface StrategySummary {
  readonly name: string;
  readonly workflow: WorkflowName;
  readonly pace: { readonly scan: number; readonly hands: number };
  /** Specimens are prepared at the bench, before the start: in operator time and cost, not in instrument time nor in the split. */
  readonly preparesOnBench: boolean;
  /** When to begin with that; null where nothing is prepared before the start. */
  readonly leadTime: LeadTime | null;
  readonly measures: Readonly<Record<Measure, MeasureSummary>>;
  /** Mean seconds of instrument occupation by activity, summed over instruments; adds up to the elapsed time of all instruments. */
  readonly split: Readonly<Record<Activity, number>>;
  /** Chance that the experiment is ever finished (stock or specimens may run out). */
  readonly finishes: Estimate;
  /** Steps of the cumulative probability of completion, at most 200 points. */
  readonly finishing: readonly FinishPoint[];
  /** By the end of each booked session (only where there are bookings), as many as the slowest replication needs, at most 60. */
  readonly finishedBySession: readonly (FinishPoint & { readonly session: number })[];
  /** Within the granted time; null where the scenario grants none. */
  readonly withinAllocation: Estimate | null;
  /** The same experiment cut at the end of the granted time; null where none is granted. */
  readonly cut: {
    readonly yield: Estimate;
    readonly undetectedBadShare: Estimate;
    readonly missing: Estimate;
    readonly tips: Estimate;
  } | null;
  /** Share of replications by number of tips used. */
  readonly tipCounts: readonly { readonly tips: number; readonly share: number }[];
  /** What first spoiled the tips used, mean number per campaign; `unspoiled` went sound. */
  readonly spoiledBy: readonly { readonly cause: SpoiledBy | 'unspoiled'; readonly tips: number }[];
  /** Why tips were replaced, mean number per campaign. */
  readonly wentBecause: readonly { readonly reason: string; readonly tips: number }[];
  /** At most 400 replications, evenly chosen, for the cloud of time against yield. */
  readonly cloud: readonly {
    readonly replication: number;
    readonly time: number;
    readonly yield: number;
    readonly tips: number;
  }[];
  /** Mean number of bad scans per campaign; absent where nothing drifts. */
  readonly badScans?: BadScans;
  readonly images: readonly ImageSummary[];
}

/** Paired difference of a strategy from the first one, with common random numbers; interval widened by Bonferroni. */
export interface Difference {
  readonly strategy: string;
  readonly measure: ComparedMeasure | Completion;
  readonly estimate: Estimate;
  /** Half-width before Bonferroni, as a share of the first strategy's mean; null where that mean is 0. */
  readonly relativePrecision: number | null;
  /** From which size on the difference matters, in the unit of the measure. */
  readonly smallest: number;
  readonly verdict: 'more' | 'less' | 'no clear difference';
}

/** One value of the scenario, as the table of assumptions shows it. */
export interface Assumption {
  readonly path: string;
  /** As a person would write it, with unit. */
  readonly value: string;
  readonly description: string;
  /** As a person would write it: `5 min to 20 min`; null for what is chosen rather than known (plan, policy). */
  readonly range: string | null;
  /** What stands behind the value: it is chosen rather than known, its default is published, the scenario names a source, or it is only assumed. */
  readonly standing: Standing;
  /** Where the value comes from; null where it is only assumed or chosen. */
  readonly source: string | null;
  /** What is said of a value without source, such as "usual practice, no source"; null where nothing is. */
  readonly note: string | null;
  /** The value was left to its default. */
  readonly isDefault: boolean;
  /** Where clear differences reverse or weaken at the limits of the range; null where it was not tried. */
  readonly reversals: readonly Reversal[] | null;
}

/** A clear difference that is not clear the same way at a limit of the range of something only assumed. */
export interface Reversal {
  readonly path: string;
  readonly strategy: string;
  readonly measure: Difference['measure'];
  /** The limit of the range at which that is so, as a person would write it. */
  readonly at: string;
  readonly baseline: number;
  /** Its interval is as wide as those of all differences (Bonferroni). */
  readonly atLimit: Estimate;
  /** The difference is clear the other way there; else it weakens: its interval includes 0. */
  readonly isReversed: boolean;
}

/** `headline` and `inconclusive` have at most 60 words together; `decided` says that the headline stands, so that `inconclusive` is null. */
export interface Verdict extends Answer {
  /** One line that says on what the headline rests that nobody has measured; null where it stands. */
  readonly inconclusive: string | null;
  readonly reversals: readonly Reversal[];
}

/** A stretch of one instrument's time in one replication. */
export interface Segment {
  readonly instrument: number;
  readonly start: number;
  readonly end: number;
  readonly activity: Activity;
  /** The step as the workflow names it, in words. */
  readonly step: string;
  readonly tip: string | null;
  readonly image: number | null;
}

/** The mounted tip's state over a stretch of time. */
export interface TipStretch {
  readonly instrument: number;
  readonly start: number;
  readonly end: number;
  /** Such as `sharp 3`: kind and number in order of first mounting, from 1. */
  readonly tip: string;
  readonly state: 'sound' | 'blunt' | LeftState;
  /** Apex radius at the end of the stretch; `blunt` once an image fell below accept by it. */
  readonly radius: number;
}

/** The summed drift rate at the start of a stretch of time, in nanometres a second. */
export interface DriftStretch {
  readonly instrument: number;
  readonly start: number;
  readonly end: number;
  readonly rate: number;
}

export interface Timeline {
  readonly strategy: string;
  /** In order of time by instrument; in long campaigns touching ones of one activity are joined. */
  readonly segments: readonly Segment[];
  readonly tips: readonly TipStretch[];
  /** Absent where nothing drifts. */
  readonly drift?: readonly DriftStretch[];
}

/** One replication shown for all strategies alike. */
export interface ShownReplication {
  readonly replication: number;
  /** Why this one is shown. */
  readonly label: string;
  /** Percentile (0 to 100) of this replication's time, yield and tips within each strategy. */
  readonly percentiles: readonly {
    readonly strategy: string;
    readonly time: number;
    readonly yield: number;
    readonly tips: number;
  }[];
  readonly timelines: readonly Timeline[];
}

export interface Summary extends StudyRecord<typeof SUMMARY_FORMAT> {
  readonly replications: number;
  readonly stopping: { readonly rule: 'precision' | 'limit' | 'fixed' | 'interrupted'; readonly text: string };
  readonly confidence: { readonly level: number; readonly comparisons: number };
  readonly allocation: Granted | null;
  readonly calendar: Calendar;
  readonly strategies: readonly StrategySummary[];
  readonly differences: readonly Difference[];
  readonly verdict: Verdict;
  readonly assumptions: readonly Assumption[];
  /** Random variation and parameter uncertainty apart; null where nothing in the scenario says how far it is known. */
  readonly parameterUncertainty: ParameterUncertainty | null;
  readonly shown: readonly ShownReplication[];
  readonly warnings: readonly string[];
}

/** One row of `replications.csv`. */
export interface ReplicationRow {
  readonly replication: number;
  readonly strategy: string;
  readonly measures: Readonly<Record<Measure, number>>;
  readonly finished: boolean;
  /** Null where the experiment was not finished. */
  readonly finishedAt: number | null;
}

export interface ComparisonResult {
  readonly summary: Summary;
  /** Replication by replication, all strategies in each; read as often as wanted. */
  readonly replications: Iterable<ReplicationRow>;
}

/** One event of a replication, as `trace` shows it. */
export interface TraceEvent {
  /** Seconds since the start. */
  readonly time: number;
  /** On the wall clock, such as `Mon 09:00:00`. */
  readonly clock: string;
  /** From 0. */
  readonly instrument: number;
  /** What happened, in a word or two. */
  readonly what: string;
  readonly detail: string;
}
