import type { Process } from '../kernel/simulation.js';
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

  constructor(private readonly at: Instrument) {}

  *start(due: ImageModel): Process {
    yield* this.buyProbe(due);
    yield* this.at.step(this.at.steps.setUp, 'starting');
  }

  *changeTip(due: ImageModel, why: WentBecause): Process {
    const { at } = this;
    yield* at.retract('changing tip');
    at.tips.takeOff(why);
    for (;;) {
      const parked = at.tips.parkedFor(due);
      if (parked === null) yield* this.buyProbe(due);
      yield* at.step(at.steps.exchange, 'changing tip');
      at.tips.mount(due, parked);
      yield* at.step(at.steps.align, 'changing tip');
      yield* at.step(at.steps.resonance, 'changing tip');
      if (!at.isMishandled(at.steps.exchange)) break;
      at.tips.spoilInHand();
    }
    yield* at.locateIfNew(due, 'changing tip');
    yield* at.approach(due, 'changing tip');
    yield* at.findAgain('changing tip');
    yield* at.step(at.steps.settle, 'changing tip');
  }

  *replaceSpecimen(): Process {
    throw new Error('A sample that lies on the stage is not lost at an approach.');
  }

  private *buyProbe(due: ImageModel): Process {
    yield* this.at.stores.takeTip(due.pass.kind);
    this.at.boughtProbe(due);
  }
}
