import type { CampaignModel } from '../../campaign/model.js';
import type { MountedTip, Remedy } from '../../campaign/replacing.js';

/** What a person can do about a doubtful tip, in the order in which it is offered. */
export const TIP_CHOICES = ['go on', 'check', 'clean', 'recondition', 'replace'] as const;
export type TipChoice = (typeof TIP_CHOICES)[number];

/** What a person can do about images that a failed check puts in doubt. */
export const IMAGE_CHOICES = ['take again', 'keep'] as const;
export type ImageChoice = (typeof IMAGE_CHOICES)[number];

export const CHOICES = [...TIP_CHOICES, ...IMAGE_CHOICES] as const;
export type Choice = TipChoice | ImageChoice;

/** Why a tip looks doubtful, or that images of it do. */
export type Doubt =
  'flagged by an image' | 'failed a check' | 'use reached' | 'radius above limit' | 'images since the last check';

/** What was chosen at a point; points are counted from 0, one each time before an attempt, and one for images in doubt. */
export interface Decision {
  readonly point: number;
  readonly choice: Choice;
}

/** What a strategy lets one do about a tip. */
export function tipChoices({ settings }: CampaignModel): readonly TipChoice[] {
  const { noticing, rules } = settings;
  return TIP_CHOICES.filter(
    (choice) =>
      (choice !== 'check' || noticing.check !== undefined) && (choice !== 'recondition' || rules.recondition.tries > 0),
  );
}

/** What may be done at a point. */
export function offeredAt({ inDoubt }: { readonly inDoubt: unknown }, aboutTips: readonly Choice[]): readonly Choice[] {
  return inDoubt === null ? aboutTips : IMAGE_CHOICES;
}

/** The doubt that makes the rules do something about a tip; null where they do nothing, or where the plan alone wants another. */
export function doubtOf(mounted: MountedTip, ruled: Remedy): Doubt | null {
  const why = ruled.what === 'change' ? ruled.why : null;
  if (why === 'another kind was needed' || why === 'critical pass') return null;
  if (mounted.judgement !== 'sound') return mounted.judgement;
  return why === 'use reached' || why === 'radius above limit' ? why : null;
}

/** The choice that does what the rules say. */
export function asRuled({ what }: Remedy): TipChoice {
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
export function remedyOf(choice: TipChoice, mounted: MountedTip, ruled: Remedy): Remedy {
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

export function isAboutImages(choice: Choice): choice is ImageChoice {
  return choice === 'take again' || choice === 'keep';
}
