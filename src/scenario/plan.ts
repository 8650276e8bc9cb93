import { leastDuration } from '../chance/duration.js';
import type { LeverLoad } from '../probe/quality.js';
import { pathOf, scanTimeOf, speedOf } from '../probe/scan-load.js';
import { instrumentFor, samplesOf } from './samples.js';
import type { Scenario, WorkflowName } from './schema/scenario.js';
import { durationOf, type Step, stepPace } from './schema/steps.js';

/** One image of the plan; numbers count from 0. */
export interface PlannedImage {
  /** Number in plan order. */
  readonly image: number;
  readonly sample: number;
  /** Counted through all samples. */
  readonly region: number;
  /** Index of the instrument that takes it. */
  readonly instrument: number;
  /** Index in `plan.passes`. */
  readonly pass: number;
  /** Index in `Object.keys(tips)`. */
  readonly kind: number;
  /** Seconds, at the settings' pace. */
  readonly scanTime: number;
  /** Sliding path in millimetres. */
  readonly path: number;
  /** Tip speed in nanometres a second, at the settings' pace. */
  readonly speed: number;
}

/** What rides on the lever in a workflow; null where the sample does not, or its mass is not given. */
export function leverLoadOf({ workflows }: Scenario, workflow: WorkflowName): LeverLoad | null {
  const { mass, effectiveMass } = workflows.hop;
  return workflow === 'hop' && mass !== undefined && effectiveMass !== undefined ? { mass, effectiveMass } : null;
}

/** The whole plan, in the order in which it is measured. */
export function expandPlan(settings: Scenario): readonly PlannedImage[] {
  const { passes, order } = settings.plan;
  const samples = samplesOf(settings.plan);
  const kinds = Object.keys(settings.tips);
  const rounds =
    order === 'region-first'
      ? [passes]
      : [...new Set(passes.map((pass) => pass.tip))].map((tip) => passes.filter((pass) => pass.tip === tip));
  const plan: PlannedImage[] = [];
  for (const [sample, { firstRegion, regions }] of samples.entries()) {
    for (const round of rounds) {
      for (let region = 0; region < regions; region += 1) {
        const instrument = instrumentFor(sample, region, samples.length, settings.instruments);
        for (const pass of round) {
          plan.push({
            image: plan.length,
            sample,
            region: firstRegion + region,
            instrument,
            pass: passes.indexOf(pass),
            kind: kinds.indexOf(pass.tip),
            scanTime: scanTimeOf(pass, settings.pace.scan),
            path: pathOf(pass),
            speed: speedOf(pass, settings.pace.scan),
          });
        }
      }
    }
  }
  return plan;
}

/** The plan at a glance. Times in seconds, path in millimetres. */
export interface PlanSummary {
  readonly images: number;
  /** Of one take of every image. */
  readonly scanTime: number;
  readonly path: number;
  /** Steps that come before the first scan, each at its least. */
  readonly leastStart: number;
  /** No campaign is shorter: every image once, nothing fails, every step at its least, no waiting; shared out evenly over the instruments. */
  readonly leastTime: number;
}

/** The plan at a glance, with the least time in which the workflow could do it. */
export function planSummary(settings: Scenario, workflow: WorkflowName): PlanSummary {
  const plan = expandPlan(settings);
  const scanTime = plan.reduce((sum, image) => sum + image.scanTime, 0);
  const leastStart = startSteps(settings, workflow).reduce((sum, least) => sum + least, 0);
  return {
    images: plan.length,
    scanTime,
    path: plan.reduce((sum, image) => sum + image.path, 0),
    leastStart,
    leastTime: leastStart + longestShare(plan),
  };
}

/** Scan seconds of the instrument with most of them. */
function longestShare(plan: readonly PlannedImage[]): number {
  const shares = new Map<number, number>();
  for (const { instrument, scanTime } of plan) shares.set(instrument, (shares.get(instrument) ?? 0) + scanTime);
  return [...shares.values()].reduce((most, share) => Math.max(most, share), 0);
}

function startSteps(settings: Scenario, workflow: WorkflowName): readonly number[] {
  const { steps } = settings.workflows[workflow];
  const least = (name: string, step: Step) =>
    leastDuration(durationOf(step)) / stepPace(name, step.manual, settings.pace);
  const names = ['setUp', 'warmUp', 'locate', 'approach'] as const;
  const start = names.map((name) => least(name, steps[name]));
  const { prepareAt, steps: hopSteps } = settings.workflows.hop;
  return workflow === 'hop' && prepareAt === 'instrument' ? [least('prepare', hopSteps.prepare), ...start] : start;
}
