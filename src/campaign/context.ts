import { Resource } from '../kernel/resource.js';
import type { Simulation } from '../kernel/simulation.js';
import type { Luck } from '../chance/luck.js';
import type { Advisor } from './advisor.js';
import type { Ledger } from './ledger.js';
import type { CampaignModel } from './model.js';
import { RANK } from './ranks.js';
import type { Pool } from './pool.js';
import type { Recorder } from './recorder.js';

/** What all instruments of one campaign share. */
export class CampaignContext {
  /** There is one for every instrument. */
  readonly areOperatorsEnough: boolean;
  private resource: Resource | null = null;

  constructor(
    readonly sim: Simulation,
    readonly model: CampaignModel,
    readonly luck: Luck,
    readonly ledger: Ledger,
    readonly pool: Pool,
    readonly recorder: Recorder | null,
    readonly advisor: Advisor | null,
  ) {
    this.areOperatorsEnough = model.settings.operators.count >= model.settings.instruments;
    // Where nothing is ever held up, nobody keeps count.
    if (!isUnhindered(model)) this.resource = this.newOperators();
  }

  get operators(): Resource {
    return (this.resource ??= this.newOperators());
  }

  private newOperators(): Resource {
    const { sim, model } = this;
    return new Resource(sim, model.settings.operators.count, model.presence, RANK.opening, RANK.start);
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

/** Nothing ever holds up a step: always booked, always attended, and an operator for every instrument. */
export function isUnhindered({ bookings, presence, settings }: CampaignModel): boolean {
  return bookings.isAlways && presence.isAlways && settings.operators.count >= settings.instruments;
}
