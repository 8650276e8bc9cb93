import { type Luck, PURPOSES } from '../chance/luck.js';
import type { StationState } from './state.js';
import { lognormalStepTime, type StepModel, stepTime } from './step-model.js';
import { STEP_NUMBER, STEP_NUMBERS } from './steps.js';

const PREPARE = STEP_NUMBER.prepare;

/** How long each step of one instrument takes, and whether it succeeds: one block of the generator an occurrence gives both. */
export class StepDraws {
  /** By number of the step; of preparing, for the sample that is prepared for. */
  private readonly occurrences: Int32Array;
  private preparing = 0;
  /** How often specimens of each sample were prepared; out of date for the one that is prepared for. */
  private readonly preparations: Map<number, number>;
  private succeeds = true;

  constructor(
    private readonly luck: Luck,
    private readonly instrument: number,
    from: StationState | null,
  ) {
    this.occurrences = new Int32Array(STEP_NUMBERS.length);
    this.preparations = new Map(from?.preparations);
    if (from !== null) this.occurrences.set(from.occurrences);
    this.occurrences[PREPARE] = this.preparations.get(0) ?? 0;
  }

  get state(): Pick<StationState, 'occurrences' | 'preparations'> {
    return {
      occurrences: [...this.occurrences],
      preparations: [...this.preparations.set(this.preparing, this.occurrences[PREPARE])],
    };
  }

  /** Which occurrence of the step with this number was the last, from 0; it numbers its draws. */
  latest(step: number): number {
    return this.occurrences[step] - 1;
  }

  /** Whether the step that was drawn last succeeds. */
  get isSuccess(): boolean {
    return this.succeeds;
  }

  /** Microseconds that a step takes which is about to be done. */
  next(step: StepModel): number {
    const { number, success, sigma } = step;
    const { luck } = this;
    const occurrence = this.occurrences[number];
    this.occurrences[number] = occurrence + 1;
    this.succeeds = true;
    if (step.isFixed && success >= 1) return step.fixedTime;
    luck.draw(PURPOSES.stepTime, this.instrument, number, occurrence, number === PREPARE ? this.preparing : 0);
    const share = luck.drawn[0];
    if (success < 1) {
      luck.drawCompanion();
      this.succeeds = luck.drawn[0] < success;
    }
    return sigma > 0 ? lognormalStepTime(step, share) : stepTime(step, share);
  }

  /** From now on specimens of this sample are prepared: draws of preparing are numbered within each sample. */
  prepareFor(sample: number): void {
    this.preparations.set(this.preparing, this.occurrences[PREPARE]);
    this.preparing = sample;
    this.occurrences[PREPARE] = this.preparations.get(sample) ?? 0;
  }
}
