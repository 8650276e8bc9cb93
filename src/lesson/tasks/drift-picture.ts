import type { CampaignModel } from '../../campaign/model.js';
import { stepTime } from '../../campaign/step-model.js';
import type { StepName } from '../../campaign/steps.js';
import { SECOND } from '../../kernel/clock.js';
import { Drift, driftQuality } from '../../probe/drift.js';
import type { WorkflowName } from '../../scenario/schema/scenario.js';
import { drifted } from '../surface/drifted.js';
import { greys } from '../surface/relief.js';
import { GRID_POINTS, SHOWN_SIDE, specimenOf } from '../surface/specimen.js';
import type { Scenarios } from '../task.js';
import type { StrategyAsked } from './verdict.js';

export interface DriftPictureAsked extends StrategyAsked {
  /** Minutes of settling after a change of tip. */
  readonly wait: number;
}

/** The first image after a change of tip, at the drift that is typical then. */
export interface DriftPicture {
  /** Of both pictures. */
  readonly columns: number;
  readonly shown: Uint8Array;
  readonly real: Uint8Array;
  /** Side of the piece that is shown, nanometres. */
  readonly side: number;
  /** Drift rate as the image begins (nm/s), and how far it is displaced by its end (nm). */
  readonly rate: number;
  readonly displacement: number;
  /** What the pass bears (nm); null where it bears any. */
  readonly tolerance: number | null;
  /** Quality that this leaves of the image. */
  readonly quality: number;
}

/** Steps from what disturbs to the image, beside settling. */
const MEANWHILE: Readonly<Record<WorkflowName, readonly StepName[]>> = {
  swap: ['align', 'resonance', 'approach', 'relocate'],
  hop: ['approach', 'resonance', 'register'],
};
const DISTURBS = { swap: 'handling', hop: 'move' } as const;
/** So much of the surface is shown: what is left is for it to be displaced into. */
const POINTS = 96;
const REGION = 0;

/** A piece of the top of the image, displaced line by line. */
export async function* driftPicture(asked: DriftPictureAsked, scenarios: Scenarios): AsyncGenerator<DriftPicture> {
  const { model } = scenarios.strategy(asked, asked.strategy);
  const [{ demand, duration }] = model.passes;
  const { size, driftTolerance } = demand.pass;
  const { drift, begins } = typicalDrift(model, asked.wait);
  const upTo = (share: number) => drift?.displacement(begins, begins + Math.floor(share * duration)) ?? 0;
  const surface = specimenOf(scenarios.luck(asked).replication(1), REGION);
  const side = (POINTS / GRID_POINTS) * SHOWN_SIDE;
  const picture = (displacementAt: (row: number) => number) => greys(drifted(surface, POINTS, displacementAt), surface);
  const displacement = upTo(1);
  yield await Promise.resolve({
    columns: POINTS,
    shown: picture((row) => upTo(Math.min(1, side / size) * (row / POINTS))),
    real: picture(() => 0),
    side,
    rate: drift?.rateAt(begins) ?? 0,
    displacement,
    tolerance: driftTolerance ?? null,
    quality: driftQuality(driftTolerance, displacement),
  });
}

/** Drift after a change of tip with its median rate, and when the image begins; null where nothing drifts. Microseconds. */
function typicalDrift({ workflow, drift, steps }: CampaignModel, wait: number) {
  const meanwhile = MEANWHILE[workflow].reduce((sum, name) => sum + stepTime(steps[name], 0.5), 0);
  const begins = meanwhile + wait * 60 * SECOND;
  if (drift === null) return { drift: null, begins };
  const kind = DISTURBS[workflow];
  const typical = new Drift(drift.course);
  const first = drift.first[kind];
  if (first !== null) typical.disturb(kind, first.median, 0);
  return { drift: typical, begins };
}
