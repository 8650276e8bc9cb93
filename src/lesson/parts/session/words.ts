import { durationText, fixed } from '../../../report/format.js';
import { type Choice, type Doubt, isAboutImages, type TipChoice } from '../../session/choices.js';
import type { Point } from '../../session/player.js';
import { imagesText } from '../../words.js';

const TIP_WORDS: Readonly<Record<TipChoice, string>> = {
  'go on': 'Go on with it',
  check: 'Check it',
  clean: 'Clean it',
  recondition: 'Recondition it',
  replace: 'Replace it',
};

/** What is written on the button of a choice. */
export function choiceText(choice: Choice, { inDoubt }: Pick<Point, 'inDoubt'>): string {
  if (!isAboutImages(choice)) return TIP_WORDS[choice];
  const images = imagesText(inDoubt?.images ?? 0);
  return choice === 'keep' ? `Keep ${images}` : `Take ${images} again`;
}

const DOUBT_WORDS: Readonly<Record<Doubt, string>> = {
  'flagged by an image': 'The image just looked at is no good, and will be taken again. Is it the tip?',
  'failed a check': 'The tip failed its check.',
  'use reached': 'The tip has done as much as the rules let a tip do.',
  'radius above limit': 'The check read an apex radius above the limit of the rules.',
  'images since the last check': 'The tip failed its check.',
};

/** What is asked at a point. */
export function doubtText({ doubt, inDoubt }: Pick<Point, 'doubt' | 'inDoubt'>): string {
  if (doubt === null) return 'You stopped before the next image.';
  if (inDoubt === null) return DOUBT_WORDS[doubt];
  const { images, scanning } = inDoubt;
  const since = `${imagesText(images)} since its last passed check ${images === 1 ? 'is' : 'are'} in doubt`;
  return `${DOUBT_WORDS[doubt]} ${since}. Taking ${images === 1 ? 'it' : 'them'} again is at least ${durationText(scanning)} of scanning.`;
}

/** The tip as people name it: kind and number from 1. */
export function tipName({ kind, tip }: Pick<Point, 'kind' | 'tip'>): string {
  return `${kind} ${tip + 1}`;
}

/** What a person can know of its apex. */
export function radiusKnown({ radiusRead }: Pick<Point, 'radiusRead'>): string {
  return radiusRead === null ? 'not measured' : `read as ${fixed(radiusRead, 0)} nm`;
}
