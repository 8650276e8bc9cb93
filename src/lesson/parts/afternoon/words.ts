import type { Choice, Doubt } from '../../afternoon/choices.js';
import type { Point } from '../../afternoon/player.js';
import { fixed } from '../../../report/format.js';

export const CHOICE_WORDS: Readonly<Record<Choice, string>> = {
  'go on': 'Go on with it',
  check: 'Check it',
  clean: 'Clean it',
  recondition: 'Recondition it',
  replace: 'Replace it',
};

const DOUBT_WORDS: Readonly<Record<Doubt, string>> = {
  'flagged by an image': 'The image just looked at is no good, and will be taken again. Is it the tip?',
  'failed a check': 'The tip failed its check. Images since the last good check are in doubt too.',
  'use reached': 'The tip has done as much as the rules let a tip do.',
  'radius above limit': 'The check read an apex radius above the limit of the rules.',
};

export function doubtText({ doubt }: Point): string {
  return doubt === null ? 'You stopped before the next image.' : DOUBT_WORDS[doubt];
}

/** The tip as people name it: kind and number from 1. */
export function tipName({ kind, tip }: Point): string {
  return `${kind} ${tip + 1}`;
}

/** What a person can know of its apex. */
export function radiusKnown({ radiusRead }: Point): string {
  return radiusRead === null ? 'not measured' : `read as ${fixed(radiusRead, 0)} nm`;
}
