import { clockText } from '../../../analysis/timeline.js';
import { durationText, fixed } from '../../../wording/numbers.js';
import { type Choice, type Doubt, isAboutImages, type TipChoice } from '../../session/choices.js';
import { imagesWith, keptAt, knownAt, stepAt } from '../../session/moment.js';
import type { Point } from '../../session/player.js';
import { counted } from '../../../wording/phrases.js';
import type { Game } from './game.js';

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
  const images = counted(inDoubt?.images ?? 0, 'image');
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
export function questionText(asked: Point): string {
  return `${tipName(asked)}, ${counted(asked.images, 'image')}: ${doubtText(asked)}`;
}

function doubtText({ doubt, inDoubt }: Point): string {
  if (doubt === null) return 'You stopped before the next image.';
  if (inDoubt === null) return DOUBT_WORDS[doubt];
  const { images, scanning } = inDoubt;
  const since = `${counted(images, 'image')} since its last passed check ${images === 1 ? 'is' : 'are'} in doubt`;
  return `${DOUBT_WORDS[doubt]} ${since}. Taking ${images === 1 ? 'it' : 'them'} again is at least ${durationText(scanning)} of scanning.`;
}

/** The tip as people name it: kind and number from 1. */
function tipName({ kind, tip }: Point): string {
  return `${kind} ${tip + 1}`;
}

/** The time of the week, seconds, to the minute. */
export function clockOf(seconds: number): string {
  return clockText(seconds * 1e6).replace(/:\d\d$/u, '');
}

/** What goes on; empty where no step runs. */
function stepText({ playing, time }: Game): string {
  const step = stepAt(playing, time);
  if (step === null) return '';
  return step.words === 'wait' ? step.activity : step.words;
}

/** In one sentence what goes on. */
export function nowText(game: Game): string {
  return `${clockOf(game.playing.startsAt + game.time)}: ${stepText(game) || 'nothing'}.`;
}

/** In one sentence how it ended. */
export function endingText({ playing, afterwards }: Game): string {
  const { images, end, startsAt, bookedUntil } = playing;
  const isComplete = afterwards?.accounts[0].isComplete === true;
  const isBookedUp = bookedUntil !== null && end >= bookedUntil;
  const why = isComplete ? 'every image is done' : isBookedUp ? 'the booked time ends' : 'what is needed has run out';
  return `The session is over at ${clockOf(startsAt + end)}, as ${why}: ${keptAt(playing, end)} of ${counted(images, 'image')} kept.`;
}

/** What a person at the instrument knows, each by its name. */
export function factsAt(game: Game): readonly (readonly [name: string, value: string])[] {
  const { playing, time, asked, isOver } = game;
  const { bookedUntil, startsAt, images } = playing;
  const known = knownAt(playing, time);
  const used = known === null ? 0 : asked === null ? imagesWith(playing, known, time) : known.images;
  const still = isOver ? 'over' : asked === null ? '–' : 'waits for you';
  return [
    ['Clock', clockOf(startsAt + time)],
    ['Booked time left', bookedUntil === null ? 'no end' : durationText(Math.max(0, bookedUntil - time))],
    ['Now', stepText(game) || still],
    ['Images kept', `${keptAt(playing, time)} of ${images}`],
    ['Tip', known === null ? '–' : `${tipName(known)}, ${counted(used, 'image')}`],
    ['Apex radius', known === null ? '–' : radiusKnown(known)],
  ];
}

function radiusKnown({ radiusRead }: Point): string {
  return radiusRead === null ? 'not measured' : `read as ${fixed(radiusRead, 0)} nm`;
}

/** Entries of the notebook that are shown. */
const NOTES = 3;

/** The last lines of the notebook. */
export function notesAt({ playing: { told, startsAt }, time }: Game): readonly string[] {
  return told
    .filter((each) => each.time <= time)
    .slice(-NOTES)
    .map((each) => `${clockOf(startsAt + each.time)} ${each.what}: ${each.detail}`);
}
