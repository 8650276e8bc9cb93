import type { KnownCampaign } from '../../campaign/known.js';
import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import type { Batch } from './batch.js';

/** What is wanted of replications beside their measures, as further columns and sums. */
export interface Wants {
  /** `cutFinished` (1 or 0), `cutYield`, `cutSilentBadShare`, `cutMissing`, `cutTips`: at the end of the granted time, where any is. */
  readonly cut?: boolean;
  /** `cutYield PLACE`, `cutMissing PLACE`: cut at the end of each of so many booked seconds, by its place in the list. */
  readonly cutAfter?: readonly number[];
  /** `time: PART`: seconds of the instrument time that went to each of TIME_PARTS. */
  readonly timeParts?: boolean;
  /** `tips of KIND`: tips used of each of these kinds. */
  readonly tipsOf?: readonly string[];
  /** Sums by image, by activity, and by what became of tips. */
  readonly sums?: boolean;
}

/** Campaigns of these strategies, from start to end. */
export interface StrategiesPlay {
  readonly kind: 'strategies';
  readonly strategies: readonly Strategy[];
}

/** Strategies of a scenario with what it says is not known drawn anew, for all of them alike. */
export interface DrawnPlay {
  readonly kind: 'drawn';
  readonly scenario: LoadedScenario;
  /** Paths of the inputs that are drawn. */
  readonly inputs: readonly string[];
  /** Replications of each draw, one after the other. */
  readonly perDraw: number;
  /** Strategies by their names, each with settings that stand in place of its own. */
  readonly parts: readonly { readonly name: string; readonly over: Partial<Strategy['settings']> }[];
}

/** A campaign under way goes on, in one of several ways. */
export interface Course {
  /** The strategy that is followed from now on, by the name of the course. */
  readonly strategy: Strategy;
  /** Every tip that is on is changed at once, before anything else. */
  readonly changesTips: boolean;
}

/**
 * The rest of a campaign under way, on every course from the same hidden state and on the same luck. Columns of the first
 * course beside its measures: `guessed` and `spoiled` (1 or 0), `used WHAT` and `ended WHAT` of each supply.
 */
export interface ContinuationsPlay {
  readonly kind: 'continuations';
  /** The strategy that was followed so far. */
  readonly strategy: Strategy;
  readonly known: KnownCampaign;
  readonly courses: readonly Course[];
}

/** Everything that can be played; `carryOut` knows how. */
export type Play = StrategiesPlay | DrawnPlay | ContinuationsPlay;

/**
 * An order for campaigns: replications `from` to `to`, both of them, numbered from 1, of each strategy of a play, on the
 * luck of a seed. Plain data that says all that the answer depends on, so that it can be sent to another thread or
 * machine, and an answer that was kept beside it is as good as one computed. Cut into shorter stretches it gives the
 * same numbers.
 */
export interface Order {
  readonly play: Play;
  readonly seed: string;
  readonly from: number;
  readonly to: number;
  readonly wants: Wants;
}

/** What an order or a stretch of it came to: a batch for each strategy of its play. */
export type Answer = readonly Batch[];

/** An order with the one who waits for its answer. */
export interface Errand {
  readonly order: Order;
  /**
   * Is given the answer in stretches, in the order of replications and without a gap. Into how many stretches an order is
   * cut, and when other errands are answered, says nothing.
   */
  readonly take: (answer: Answer) => void;
}
