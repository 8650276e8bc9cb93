import type { Tip } from '../probe/tip.js';
import type { Take, WentBecause } from './ledger.js';
import type { CampaignModel, ImageModel } from './model.js';
import { type Judgement, type MountedState, nameOf } from './state.js';

/** The tip that is on, and what is known of it. */
export class MountedTip {
  judgement: Judgement = 'sound';
  /** Noticed broken while scanning: goes uncleaned. */
  seenBroken = false;
  /** Tries since its last unflagged take or passed check. */
  cleanings = 0;
  reconditionings = 0;
  /** Apex radius (nm) that the last check read; 0 before the first. */
  radiusRead = 0;
  /** Nothing of this tip's is suspect before this moment (microseconds): it passed a check then. */
  passedAt = -1;
  /** It was cleaned, reconditioned or parked then: earlier takes that are flagged late do not judge it. */
  clearedAt = -1;
  /** A check on a new tip is still to be made. */
  isUnchecked: boolean;
  /** Its takes since its last passed check. */
  unconfirmed: Take[] = [];

  constructor(
    readonly tip: Tip,
    /** First mounted, microseconds. */
    public mountedAt: number,
    checkNew: boolean,
  ) {
    this.isUnchecked = checkNew;
  }

  /** Its tip is a new one. */
  renew(mountedAt: number, checkNew: boolean): void {
    this.judgement = 'sound';
    this.seenBroken = false;
    this.trusted();
    this.radiusRead = 0;
    this.passedAt = -1;
    this.clearedAt = -1;
    this.isUnchecked = checkNew;
    this.unconfirmed.length = 0;
    this.mountedAt = mountedAt;
  }

  /** A tip that was on or parked when the campaign was taken up. */
  static from(state: MountedState, tip: Tip): MountedTip {
    const mounted = new MountedTip(tip, state.mountedAt, state.isUnchecked);
    mounted.judgement = state.judgement;
    mounted.seenBroken = state.seenBroken;
    mounted.cleanings = state.cleanings;
    mounted.reconditionings = state.reconditionings;
    mounted.radiusRead = state.radiusRead;
    mounted.passedAt = state.passedAt;
    mounted.clearedAt = state.clearedAt;
    return mounted;
  }

  /** How it is. */
  get state(): MountedState {
    const { tip, mountedAt, judgement, seenBroken, cleanings, reconditionings } = this;
    const { radiusRead, passedAt, clearedAt, isUnchecked } = this;
    return {
      kind: tip.kind.index,
      number: tip.number,
      tip: tip.state,
      ...{ mountedAt, judgement, seenBroken, cleanings, reconditionings },
      ...{ radiusRead, passedAt, clearedAt, isUnchecked },
      unconfirmed: this.unconfirmed.map(nameOf),
    };
  }

  /** An unflagged take or a passed check: tries count anew. */
  trusted(): void {
    this.cleanings = 0;
    this.reconditionings = 0;
  }
}

/** What is done about the tip before the next take. */
export type Remedy =
  | { readonly what: 'nothing' | 'clean' | 'recondition' }
  /** What the rules never say: another check, or that the tip is taken for sound whatever was noticed. */
  | { readonly what: 'check' | 'trust' }
  | { readonly what: 'change'; readonly why: WentBecause };

/** Whether it is done since an image or a check has flagged the tip. */
export function isForFlaggedTip(remedy: Remedy): boolean {
  if (remedy.what === 'change') return remedy.why === 'flagged by an image' || remedy.why === 'failed a check';
  return remedy.what === 'clean' || remedy.what === 'recondition';
}

const NOTHING: Remedy = { what: 'nothing' };

/** What the replacement rules say of a tip, given the take that is due next. */
export function remedyFor(mounted: MountedTip, due: ImageModel, model: CampaignModel): Remedy {
  const { tip } = mounted;
  const { rules } = model.settings;
  if (hasReachedUse(tip, model)) return { what: 'change', why: 'use reached' };
  if (rules.radiusAbove !== undefined && mounted.radiusRead > rules.radiusAbove)
    return { what: 'change', why: 'radius above limit' };
  const needsOtherKind = tip.kind.index !== due.pass.kind;
  if (mounted.judgement !== 'sound') {
    const mayMend = !needsOtherKind && !mounted.seenBroken && !due.pass.critical;
    if (mayMend && mounted.cleanings < rules.cleanFirst.tries) return { what: 'clean' };
    if (mayMend && mounted.reconditionings < rules.recondition.tries) return { what: 'recondition' };
    return { what: 'change', why: mounted.judgement };
  }
  if (needsOtherKind) return { what: 'change', why: 'another kind was needed' };
  return accepts(due, tip) ? NOTHING : { what: 'change', why: 'critical pass' };
}

/** Whether an image takes a tip of its kind as far as its use goes: a critical one only a tip that has scanned nothing. */
function accepts(due: ImageModel, tip: Tip): boolean {
  return !due.pass.critical || tip.use.images === 0;
}

/** Whether a parked tip may be used again for the take that is due. */
export function mayReturn({ tip }: MountedTip, due: ImageModel, model: CampaignModel): boolean {
  return tip.kind.index === due.pass.kind && !hasReachedUse(tip, model) && accepts(due, tip);
}

/** Whether a tip's use has reached the rule's limit; to 1e-9, so that ten tenths of an image are one. */
function hasReachedUse(tip: Tip, model: CampaignModel): boolean {
  const { after } = model.settings.rules;
  if (after === undefined) return false;
  const used = { image: tip.use.images, distance: tip.use.path, hour: tip.use.hours }[after.unit];
  return used >= after.amount * (1 - 1e-9);
}
