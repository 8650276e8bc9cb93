import { PURPOSES } from '../chance/luck.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import type { CampaignContext } from './context.js';
import type { Scheduler } from './scheduler.js';
import type { ChipState } from './state.js';

/** Hops after which a coarse move is due; Infinity where none ever is. */
export function hopsPerCoarseMove({ workflows }: Scenario): number {
  const { fineRange, chip } = workflows.hop;
  return fineRange === undefined ? Infinity : Math.max(1, Math.floor(fineRange / chip.pitch + 1e-9));
}

/** The chip on the stage, and the way from site to site. */
export class Chip {
  /** The exchange that brought it broke its tips. */
  isBroken: boolean;
  /** The site that was come to last is not a dead one. */
  isAlive = true;

  /** Its number, and that of the next site by kind. */
  private number: number;
  private readonly nextSite: Map<number, number>;
  /** Kind of the site that was come to last. */
  private kindBefore: number | null;
  private hopsSinceCoarse: number;
  /** A coarse move was made in this change of tip. */
  private isCoarselyMoved = false;
  /** Hops after which a coarse move is due. */
  private readonly reach: number;
  private readonly context: CampaignContext;

  constructor(
    private readonly scheduler: Scheduler,
    from: ChipState | null,
  ) {
    this.context = scheduler.context;
    this.reach = hopsPerCoarseMove(scheduler.context.model.settings);
    this.number = from?.chip ?? -1;
    this.nextSite = new Map(from?.nextSite);
    this.kindBefore = from?.kindBefore ?? null;
    this.hopsSinceCoarse = from?.hopsSinceCoarse ?? 0;
    this.isBroken = from?.isBroken ?? false;
  }

  get state(): ChipState {
    const { number: chip, kindBefore, hopsSinceCoarse, isBroken } = this;
    return { chip, nextSite: [...this.nextSite], kindBefore, hopsSinceCoarse, isBroken };
  }

  /** Another chip is on the stage. */
  open(): void {
    this.number += 1;
    this.isBroken = false;
    this.nextSite.clear();
    this.hopsSinceCoarse = 0;
    this.context.ledger.chipsOpened.push(this.scheduler.now);
  }

  /** The experiment begins at the first site of a kind, which is not dead. */
  begin(kind: number): void {
    this.nextSite.set(kind, 1);
    this.kindBefore = kind;
  }

  beginChange(): void {
    this.isCoarselyMoved = false;
  }

  hopped(): void {
    this.hopsSinceCoarse += 1;
  }

  /** Whether a coarse move comes before the next site of a kind: one at most in any change. */
  isCoarseMoveDue(kind: number): boolean {
    return !this.isCoarselyMoved && (this.kindBefore !== kind || this.hopsSinceCoarse >= this.reach);
  }

  coarselyMoved(): void {
    this.hopsSinceCoarse = 0;
    this.isCoarselyMoved = true;
  }

  hasSite(kind: number): boolean {
    const { chip } = this.context.model.settings.workflows.hop;
    return (this.nextSite.get(kind) ?? 0) < (chip.sites[this.context.model.kinds[kind].name] ?? 0);
  }

  /** Takes the next site of a kind; whether it is alive. */
  take(kind: number): boolean {
    const { luck, model } = this.context;
    const site = this.nextSite.get(kind) ?? 0;
    this.nextSite.set(kind, site + 1);
    this.kindBefore = kind;
    const share = model.settings.workflows.hop.chip.dead[model.kinds[kind].name] ?? 0;
    this.isAlive = luck.uniform(PURPOSES.dead, this.scheduler.number, kind, this.number, site) >= share;
    return this.isAlive;
  }

  /** Back to a site of a kind whose tip was parked. */
  returnTo(kind: number): void {
    this.kindBefore = kind;
  }
}
