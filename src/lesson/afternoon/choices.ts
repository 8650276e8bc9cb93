import type { CampaignModel } from '../../campaign/model.js';
import type { MountedTip, Remedy } from '../../campaign/replacing.js';

/** What a person can do about a doubtful tip, in the order in which it is offered. */
export const CHOICES = ['go on', 'check', 'clean', 'recondition', 'replace'] as const;
export type Choice = (typeof CHOICES)[number];

/** Why a tip looks doubtful. */
export type Doubt = 'flagged by an image' | 'failed a check' | 'use reached' | 'radius above limit';

/** What was chosen at a point; points are counted from 0, one each time before a take. */
export interface Decision {
  readonly point: number;
  readonly choice: Choice;
}

/** What a strategy lets one do. */
export function offered({ settings }: CampaignModel): readonly Choice[] {
  const { noticing, rules } = settings;
  return CHOICES.filter(
    (choice) =>
      (choice !== 'check' || noticing.check !== undefined) && (choice !== 'recondition' || rules.recondition.tries > 0),
  );
}

/** The doubt that makes the rules do something about a tip; null where they do nothing, or where the plan alone wants another. */
export function doubtOf(mounted: MountedTip, ruled: Remedy): Doubt | null {
  const why = ruled.what === 'change' ? ruled.why : null;
  if (why === 'another kind was needed' || why === 'critical pass') return null;
  if (mounted.judgement !== 'sound') return mounted.judgement;
  return why === 'use reached' || why === 'radius above limit' ? why : null;
}

/** The choice that does what the rules say. */
export function asRuled({ what }: Remedy): Choice {
  switch (what) {
    case 'change':
      return 'replace';
    case 'nothing':
    case 'trust':
      return 'go on';
    default:
      return what;
  }
}

/** What is done by a choice. */
export function remedyOf(choice: Choice, mounted: MountedTip, ruled: Remedy): Remedy {
  switch (choice) {
    case 'go on':
      return { what: mounted.judgement === 'sound' ? 'nothing' : 'trust' };
    case 'replace': {
      if (ruled.what === 'change') return ruled;
      return { what: 'change', why: mounted.judgement === 'sound' ? "the operator's choice" : mounted.judgement };
    }
    default:
      return { what: choice };
  }
}
