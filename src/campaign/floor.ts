import { Resource } from '../kernel/resource.js';
import type { Simulation } from '../kernel/simulation.js';
import type { Luck } from '../chance/luck.js';
import type { Advisor } from './advisor.js';
import type { Ledger } from './ledger.js';
import type { CampaignModel } from './model.js';
import { RANK } from './ranks.js';
import type { Recorder } from './recorder.js';

/** What all instruments of one campaign share. */
export class Floor {
  readonly operators: Resource;

  constructor(
    readonly sim: Simulation,
    readonly model: CampaignModel,
    readonly luck: Luck,
    readonly ledger: Ledger,
    readonly recorder: Recorder | null,
    readonly advisor: Advisor | null,
  ) {
    this.operators = new Resource(sim, model.settings.operators.count, model.presence, RANK.opening, RANK.start);
  }

  /** An operator is present and free. */
  get hasFreeOperator(): boolean {
    return this.isAttended && this.operators.inUse < this.model.settings.operators.count;
  }

  /** Operators are present. */
  get isAttended(): boolean {
    return this.model.presence.isOpen(this.sim.now);
  }
}
