import type { Luck } from '../chance/luck.js';
import type { KindModel } from '../probe/kind-model.js';
import { Tip } from '../probe/tip.js';
import type { ImageFate, Take } from './ledger.js';
import type { ImageModel } from './model.js';
import { MountedTip } from './replacing.js';
import { NO_DRIFT } from './instrument-drift.js';

/**
 * What campaigns need many of. Given out anew in each campaign, so that a run of many of them makes no new objects; whatever is kept
 * of a campaign holds until the next one begins.
 */
export class Pool {
  /** By image and running number, so that what those two say of a take stays. */
  readonly takes: Take[][] = [];
  /** By kind. */
  private readonly tips: MountedTip[][] = [];
  private readonly tipsGiven: number[] = [];
  private readonly fates: ImageFate[] = [];

  /** A campaign begins. */
  collect(): void {
    this.tipsGiven.fill(0);
  }

  take(image: ImageModel, tip: Tip, previous: Take | null): Take {
    const running = previous === null ? 0 : previous.running + 1;
    while (this.takes.length <= image.number) this.takes.push([]);
    const takes = this.takes[image.number];
    if (running >= takes.length) {
      const judged = { flaggedAt: null, flaggedFrom: null, voidAt: null, voidFrom: null };
      const outcome = { start: 0.5, end: 0.5, quality: 0.5, good: false, drift: NO_DRIFT };
      const made: Take = { image, running, previous, tip, ...outcome, ...judged };
      // A campaign that was taken up has takes that are not of this pool.
      if (running === takes.length) takes.push(made);
      return made;
    }
    const spare = takes[running];
    spare.tip = tip;
    if (spare.flaggedAt !== null) spare.flaggedAt = spare.flaggedFrom = null;
    if (spare.voidAt !== null) spare.voidAt = spare.voidFrom = null;
    return spare;
  }

  /** A new tip, just mounted. */
  tip(
    kind: KindModel,
    number: number,
    instrument: number,
    luck: Luck,
    mountedAt: number,
    checkNew: boolean,
  ): MountedTip {
    const { index } = kind;
    while (this.tips.length <= index) {
      this.tips.push([]);
      this.tipsGiven.push(0);
    }
    const spare = this.tips[index].at(this.tipsGiven[index]);
    this.tipsGiven[index] += 1;
    if (spare === undefined) {
      const made = new MountedTip(new Tip(kind, number, instrument, luck), mountedAt, checkNew);
      this.tips[index].push(made);
      return made;
    }
    spare.tip.renew(number, instrument, luck, null);
    spare.renew(mountedAt, checkNew);
    return spare;
  }

  /** What became of each of so many images, to be filled in. */
  fatesOf(images: number): ImageFate[] {
    while (this.fates.length < images) this.fates.push({ kept: null, fate: 'missing' });
    return this.fates;
  }
}
