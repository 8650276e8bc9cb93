import { lognormalScore } from '../chance/scores.js';
import { type Luck, PURPOSES } from '../chance/luck.js';
import { DISTURBANCE_KINDS, type DisturbanceKind, Drift, driftQuality } from '../probe/drift.js';
import type { DriftModel } from './model.js';
import type { StepModel } from './step-model.js';
import type { StartedDrift } from './recorder.js';
import type { ImageDrift, InstrumentDriftState } from './state.js';

/** Nothing drifts. */
export const NO_DRIFT: ImageDrift = { rate: 0, displacement: 0, quality: 1 };

/** Drift of one instrument, with what each disturbance starts: a first rate by instrument, kind and occurrence. Microseconds. */
export class InstrumentDrift {
  private readonly drift: Drift;
  private readonly disturbances: Record<DisturbanceKind, number> = { handling: 0, move: 0 };

  constructor(
    private readonly model: DriftModel,
    private readonly instrument: number,
    private readonly luck: Luck,
    from: InstrumentDriftState | null,
  ) {
    this.drift = new Drift(model.course, from?.latest);
    if (from !== null) this.disturbances = { ...from.disturbances };
  }

  get state(): InstrumentDriftState {
    return { latest: this.drift.state, disturbances: { ...this.disturbances } };
  }

  /** A step has ended, and may have disturbed; gives what that started. */
  stepEnded({ disturbs: kind }: StepModel, time: number): StartedDrift | null {
    if (kind === null) return null;
    const occurrence = this.disturbances[kind];
    this.disturbances[kind] = occurrence + 1;
    const first = this.model.first[kind];
    if (first === null) return null;
    const u = this.luck.uniform(PURPOSES.driftRate, this.instrument, DISTURBANCE_KINDS.indexOf(kind), occurrence, 0);
    const rate = lognormalScore(first, u);
    this.drift.disturb(kind, rate, time);
    return { kind, rate };
  }

  /** How long from a moment on until drift has come down to a rate (nm/s). */
  waitUntil(rate: number, time: number): number {
    return this.drift.waitUntil(rate, time);
  }

  /** Drift of an image scanned between two moments. */
  ofImage(from: number, to: number, tolerance: number | undefined): ImageDrift {
    const displacement = this.drift.displacement(from, to);
    return { rate: this.drift.rateAt(from), displacement, quality: driftQuality(tolerance, displacement) };
  }
}
