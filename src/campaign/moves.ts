import { act, type Act, either, type Line, type Lines, step, type Test, when, whilst } from './procedure.js';
import type { Phase, StepName } from './steps.js';
import { MARK } from './timesheet.js';

/** What is particular to a workflow in the moves that all of them are made of. */
export interface Ways {
  /** How the region is found again on a later visit. */
  readonly returning: StepName;
  /** Makes a sample ready before it is put on for the first time. */
  readonly prepareSample: Lines;
  /** What follows once another sample is put on, up to its first locate. */
  readonly sampleChanged: Lines;
  /** Puts another specimen in the place of one that an approach, or a change of sample, has lost; empty where none ever is. */
  readonly replaceSpecimen: Lines;
}

/** The moves that every workflow is made of, for the image that is due. */
export interface Moves {
  /** Retracts, unless the tip is away already, and takes leave of the region in place where the image is in another one. */
  leave(phase: Phase): Lines;
  /** To the region of the image, which is located on its first visit: locate*, approach. */
  come(phase: Phase): Lines;
  /** As `come`, with the sample changed before where another one is on. */
  putOnAndCome(phase: Phase): Lines;
  /** Relocates or registers until the region is in the frame; nothing where it was just located. */
  findAgain(phase: Phase): Lines;
  /** Back to the surface after an idle closing. */
  readonly engage: Lines;
  /** Puts the sample of the image on. */
  readonly putOn: Lines;
}

const isEngaged: Test = ({ scheduler }) => scheduler.engaged;
const isAway: Test = ({ scheduler }) => !scheduler.engaged;
const isToFind: Test = ({ scheduler }) => !scheduler.found;
const isNew: Test = (at) => !at.isVisited(at.due.region);
const isAnotherSample: Test = (at) => at.due.sample !== at.sample;
const isLost: Test = (at) => at.isSpecimenLost;

const takeLeave: Act = (at) => {
  const { due, worklist } = at;
  if (due.region !== at.region) at.region = null;
  if (due.sample === at.sample) return;
  worklist.startSample(due.sample);
  at.scheduler.note('sample', () => `on to sample ${at.model.samples[due.sample].name}`);
};

const headFor: Act = (at) => {
  at.region = at.due.region;
  at.scheduler.due = at.due;
};

const located: Act = (at) => {
  at.visit(at.due.region);
  at.scheduler.found = true;
};

const approached: Act = (at) => {
  const { scheduler, tips, due } = at;
  scheduler.engaged = true;
  tips.mounted?.tip.approach(due.pass, scheduler.now);
  tips.showTip();
  at.isSpecimenLost = at.losesSpecimen(at.steps.approach);
};

const sampleIsOn: Act = (at) => {
  at.sample = at.due.sample;
  at.forgetVisits();
  at.isSpecimenLost = at.losesSpecimen(at.steps.changeSample);
};

const loseSpecimen: Act = (at) => {
  at.loseSpecimen();
};

const beginSearch: Act = (at) => {
  at.scheduler.timesheet.begin(MARK.search);
};

/** Retracts from the surface. */
export function retract(phase: Phase, begun: Act, then: Act): Line {
  // It may stand idle over a closing while it waits: what is pending then goes on without its retract.
  return step('retract', phase, { begun, isNeedless: isAway, then });
}

/** One step that finds the region again, or fails to. */
function search(returning: StepName, phase: Phase): Line {
  return step(returning, phase, {
    then: (at) => {
      const { scheduler } = at;
      if (scheduler.draws.isSuccess) scheduler.found = true;
      else scheduler.failedSince(MARK.search, () => `${returning} is repeated`);
    },
  });
}

export function movesOf({ returning, prepareSample, sampleChanged, replaceSpecimen }: Ways): Moves {
  const again = (lines: Lines): Lines =>
    replaceSpecimen.length === 0 ? [] : [whilst(isLost, [act(loseSpecimen), ...replaceSpecimen, ...lines])];
  const locateIfNew = (phase: Phase) => [act(headFor), when(isNew, [step('locate', phase, { then: located })])];
  const approach = (phase: Phase): Lines => {
    const once = step('approach', phase, { then: approached });
    return [once, ...again([...locateIfNew(phase), once])];
  };
  const come = (phase: Phase) => [...locateIfNew(phase), ...approach(phase)];
  const change = step('changeSample', 'changing sample', { then: sampleIsOn });
  const putOn = [...prepareSample, change, ...again([change]), ...sampleChanged];
  return {
    leave: (phase) => [
      either(
        isEngaged,
        [
          retract(phase, takeLeave, ({ scheduler }) => {
            scheduler.away(false);
          }),
        ],
        [act(takeLeave)],
      ),
    ],
    come,
    putOnAndCome: (phase) => [either(isAnotherSample, [...putOn, ...come('changing sample')], come(phase))],
    findAgain: (phase) => [whilst(isToFind, [act(beginSearch), search(returning, phase)])],
    engage: [when(isAway, approach('resuming'))],
    putOn,
  };
}
