import { exp, expm1, ln } from '../chance/elementary.js';
import { SECOND } from '../kernel/clock.js';

/** What disturbs: hands at the instrument (set-up, exchange, change of sample), or a move (offset, coarse move). */
export const DISTURBANCE_KINDS = ['handling', 'move'] as const;
export type DisturbanceKind = (typeof DISTURBANCE_KINDS)[number];

/** The latest disturbance of a kind: the rate that it started, and when. */
export interface Disturbance {
  /** Drift rate at its moment, in nanometres a second. */
  readonly rate: number;
  /** Microseconds on the campaign's clock. */
  readonly time: number;
}

/** What a workflow says of how drift goes on. */
export interface DriftCourse {
  /** By kind: seconds in which the rate falls to 1/e. */
  readonly decay: Readonly<Record<DisturbanceKind, number>>;
  /** Rate that never decays, v∞, in nanometres a second. */
  readonly steady: number;
}

/** The latest disturbance of each kind; null where there was none yet. */
export type DriftState = Readonly<Record<DisturbanceKind, Disturbance | null>>;

export const UNDISTURBED: DriftState = { handling: null, move: null };

/** How soon one disturbance's rate has fallen so far. Seconds. */
interface Decaying {
  /** Nanometres a second. */
  readonly rate: number;
  readonly decay: number;
}

/**
 * Drift of one instrument: what the latest disturbance of each kind started decays exponentially, and the rates of both kinds
 * and the steady one add up (MODEL, Drift; rate after a settling time as in ISO 11039). Moments and waits in whole microseconds,
 * rates in nanometres a second, displacements in nanometres.
 */
export class Drift {
  private readonly latest: Record<DisturbanceKind, Disturbance | null>;
  /** What was worked out last, and for which moment: an image asks twice. */
  private left: readonly Decaying[] = [];
  private leftAt = NaN;

  constructor(
    private readonly course: DriftCourse,
    from: DriftState = UNDISTURBED,
  ) {
    this.latest = { ...from };
  }

  get state(): DriftState {
    return { ...this.latest };
  }

  /** A disturbance takes the place of an earlier one of its kind. */
  disturb(kind: DisturbanceKind, rate: number, time: number): void {
    this.latest[kind] = { rate, time };
    this.leftAt = NaN;
  }

  /** Rate at a moment that is not before the latest disturbance. */
  rateAt(time: number): number {
    return this.course.steady + summedRate(this.decayingAt(time), 0);
  }

  /** How far an image is displaced from its first line to its last, if nothing disturbs between these moments. */
  displacement(from: number, to: number): number {
    const seconds = (to - from) / SECOND;
    return this.decayingAt(from).reduce(
      (sum, { rate, decay }) => sum - rate * decay * expm1(-seconds / decay),
      this.course.steady * seconds,
    );
  }

  /** Least wait from a moment on after which the summed rate, but for the steady one, is at most this limit (greater than 0). */
  waitUntil(limit: number, time: number): number {
    const decaying = this.decayingAt(time).filter(({ rate }) => rate > 0);
    if (summedRate(decaying, 0) <= limit) return 0;
    if (decaying.length > 1) return leastWait(decaying, limit);
    const [{ rate, decay }] = decaying;
    return Math.ceil(decay * ln(rate / limit) * SECOND);
  }

  /** What is left of each kind's rate at a moment. */
  private decayingAt(time: number): readonly Decaying[] {
    if (time === this.leftAt) return this.left;
    const left: Decaying[] = [];
    for (const kind of DISTURBANCE_KINDS) {
      const disturbance = this.latest[kind];
      if (disturbance === null) continue;
      const decay = this.course.decay[kind];
      left.push({ rate: disturbance.rate * exp((disturbance.time - time) / SECOND / decay), decay });
    }
    this.left = left;
    this.leftAt = time;
    return left;
  }
}

function summedRate(decaying: readonly Decaying[], wait: number): number {
  return decaying.reduce((sum, { rate, decay }) => sum + rate * exp(-wait / SECOND / decay), 0);
}

/** Newton's steps, in whole microseconds, up to where no clock goes: as the rate falls ever more slowly, none goes too far. */
function leastWait(decaying: readonly Decaying[], limit: number): number {
  for (let wait = 0; ;) {
    let [sum, slope] = [0, 0];
    for (const { rate, decay } of decaying) {
      const left = rate * exp(-wait / SECOND / decay);
      sum += left;
      slope += left / decay;
    }
    if (sum <= limit || wait > Number.MAX_SAFE_INTEGER) return wait;
    wait += Math.max(1, Math.floor(((sum - limit) / slope) * SECOND));
  }
}

/** What a displacement leaves of an image's quality; all of it where the pass tolerates any (undefined). Nanometres. */
export function driftQuality(tolerance: number | undefined, displacement: number): number {
  return tolerance === undefined || displacement <= tolerance ? 1 : tolerance / displacement;
}
