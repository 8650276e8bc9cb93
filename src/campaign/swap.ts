import { after, AT_ONCE, type Course, type Process } from '../kernel/simulation.js';
import type { Instrument } from './instrument.js';
import type { WentBecause } from './ledger.js';
import type { ImageModel } from './model.js';
import type { Workflow } from './workflow.js';

const AT_SURFACE: Workflow['atSurface'] = new Map([
  ['relocate', 'before finding'],
  ['settle', 'after finding'],
]);

/** Swap and relocate: the probe is exchanged by hand. */
export class Swap implements Workflow {
  readonly changing = 'exchanging';
  readonly firstStep = 'exchange';
  readonly returning = 'relocate';
  readonly atSurface = AT_SURFACE;
  readonly specimenLoss = 0;
  readonly chipState = null;
  readonly prepared = [];

  constructor(private readonly at: Instrument) {}

  *start(due: ImageModel): Process {
    yield* this.buyProbe(due);
    yield* this.at.step(this.at.steps.setUp, 'starting');
  }

  *changeTip(due: ImageModel, why: WentBecause): Process {
    const { at } = this;
    yield* at.leave(due, 'changing tip');
    at.tips.takeOff(why);
    // A parked tip that was mishandled is gone; what follows it is always a new one.
    for (let parked = at.tips.parkedFor(due); ; parked = null) {
      if (parked === null) yield* this.buyProbe(due);
      const { mark } = at.station.timesheet;
      yield* at.step(at.steps.exchange, 'changing tip');
      at.tips.mount(due, parked);
      yield* at.step(at.steps.align, 'changing tip');
      yield* at.step(at.steps.resonance, 'changing tip');
      if (!at.isMishandled(at.steps.exchange)) break;
      at.tips.spoilInHand();
      at.station.timesheet.moveSince(mark, 'mishandling');
    }
    const phase = at.phaseTowards(due);
    yield* at.putOn(due);
    yield* at.locateIfNew(due, phase);
    yield* at.approach(due, phase);
    yield* at.findAgain('changing tip');
    yield* at.step(at.steps.settle, 'changing tip');
  }

  isToPrepare(): boolean {
    return false;
  }

  prepareSample(): Course {
    return AT_ONCE;
  }

  sampleChanged(): Course {
    return AT_ONCE;
  }

  hasSpecimen(): boolean {
    return false;
  }

  replaceSpecimen(): Course {
    throw new Error('A sample that lies on the stage is never lost.');
  }

  private buyProbe(due: ImageModel): Course {
    return after(this.at.stores.takeTip(due.pass.kind), () => {
      this.at.boughtProbe(due);
      return AT_ONCE;
    });
  }
}
