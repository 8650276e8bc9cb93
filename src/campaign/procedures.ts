import type { Scenario } from '../scenario/schema/scenario.js';
import { ACTIVITY_NUMBER } from './activities.js';
import type { CampaignModel } from './model.js';
import { needOf, type StepModel } from './step-model.js';
import { checkIfDue, checkTip, cleanTip, reconditionTip, takeImage } from './attempt.js';
import {
  act,
  compileProcedure,
  type Lines,
  type Procedure,
  step,
  type StepDetails,
  type StepPlan,
  waitFor,
} from './procedure.js';
import type { SurfaceNeed } from './steps.js';
import type { Phase, StepName } from './steps.js';
import type { Workflow } from './workflow.js';
import { WORKFLOWS } from './workflows.js';

/** All procedures of a strategy, ready to be played. */
export interface Procedures {
  readonly workflow: Workflow;
  /** Sample and first tip set up, warmed up, and the first region come to. */
  readonly begin: Procedure;
  readonly changeTip: Procedure;
  /** Another region under the same tip. */
  readonly changeRegion: Procedure;
  /** Another sample under the same tip. */
  readonly changeSample: Procedure;
  /** Back to the surface after an idle closing, and to the region in place where that is needed. */
  readonly back: Readonly<Record<SurfaceNeed, Procedure>>;
  readonly clean: Procedure;
  readonly recondition: Procedure;
  readonly check: Procedure;
  /** One attempt at an image: scan, then review, then a check where one is due. */
  readonly take: Procedure;
  /** What of it comes after the review. */
  readonly afterReview: Procedure;
  /** Whatever else is waited for. */
  readonly wait: Procedure;
}

/** What moving the instrument counts as, unless the tip is being changed. */
const LOCATING = ACTIVITY_NUMBER['locating and relocating'];
const PREPARING = ACTIVITY_NUMBER['preparing and setting up'];

/** By the steps of the strategy, which are of it alone. */
const COMPILED = new WeakMap<CampaignModel['steps'], Procedures>();

/** The procedures of a strategy; compiled once. */
export function proceduresOf({ workflow, settings, steps }: CampaignModel): Procedures {
  const known = COMPILED.get(steps);
  if (known !== undefined) return known;
  const compiled = compileProcedures(WORKFLOWS[workflow](settings), settings, steps);
  COMPILED.set(steps, compiled);
  return compiled;
}

function compileProcedures(workflow: Workflow, settings: Scenario, steps: CampaignModel['steps']): Procedures {
  const { moves, start, changeTip } = workflow;
  const compile = (lines: Lines) =>
    compileProcedure(lines, (name, phase, details) => planOf(steps[name], phase, details, workflow));
  return {
    workflow,
    begin: compile([
      ...start,
      act((at) => {
        at.sample = at.due.sample;
        at.tips.mount(at.due, null);
      }),
      step('warmUp', 'starting', {
        then: ({ scheduler }) => {
          scheduler.warmedUp();
        },
      }),
      ...moves.come('starting'),
    ]),
    changeTip: compile(changeTip),
    changeRegion: compile([
      ...moves.leave('changing region'),
      ...moves.come('changing region'),
      ...moves.findAgain('changing region'),
    ]),
    changeSample: compile([
      ...moves.leave('changing sample'),
      ...moves.putOn,
      ...moves.come('changing sample'),
      step('settle', 'changing sample'),
    ]),
    back: {
      'before finding': compile(moves.engage),
      'after finding': compile([...moves.engage, ...moves.findAgain('resuming')]),
    },
    clean: compile(cleanTip(settings)),
    recondition: compile(reconditionTip(settings)),
    check: compile(checkTip(settings)),
    take: compile(takeImage(settings)),
    afterReview: compile(checkIfDue(settings)),
    wait: compile([waitFor(({ waitsFor }) => waitsFor)]),
  };
}

function planOf(model: StepModel, phase: Phase, details: StepDetails, workflow: Workflow): StepPlan {
  const need = needOf(model, phase);
  return {
    model,
    activity: countsAs(model, phase, workflow),
    need,
    surface: surfaceNeedOf(model.name, phase, workflow),
    begun: details.begun ?? null,
    isNeedless: details.isNeedless ?? null,
    takes: details.takes ?? -1,
    wait: details.wait ?? (({ waits }) => waits.ready(need, 0)),
    changed: details.changed ?? null,
    then: details.then ?? null,
    isAtBench: details.isAtBench ?? false,
    isScan: model.name === 'scan',
  };
}

function countsAs({ name, activity }: StepModel, phase: Phase, { changing }: Workflow): number {
  if (phase === 'changing sample' && name !== 'settle') return PREPARING;
  if (activity >= 0) return activity;
  return phase === 'changing tip' ? ACTIVITY_NUMBER[changing] : LOCATING;
}

/** The resonance of another lever is looked at before it has come to the surface. */
function surfaceNeedOf(name: StepName, phase: Phase, { atSurface }: Workflow): SurfaceNeed | null {
  if (name === 'check') return 'after finding';
  return phase === 'changing sample' && name === 'resonance' ? null : (atSurface[name] ?? null);
}
