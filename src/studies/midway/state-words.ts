import type { KnownFate, Standing } from '../../execution/midway/known.js';
import type { Judgement } from '../../campaign/state.js';
import { suggestion } from '../../scenario/nearest.js';
import { show } from '../../scenario/show.js';
import type { Reading } from '../../scenario/quantity.js';

/** A word of the table, and what else people write for it. Common usage, no source. */
interface Word<Meaning> {
  readonly meaning: Meaning;
  /** As the table is written. */
  readonly name: string;
  readonly also: readonly string[];
}

export type Words<Meaning> = readonly Word<Meaning>[];

/** What a row may say of an image: the last two are no fates of their own. */
export type ImageWord = KnownFate | 'running' | 'given up';

function itself<Meaning extends string>(meaning: Meaning, also: readonly string[]): Word<Meaning> {
  return { meaning, name: meaning, also };
}

export const IMAGE_WORDS: Words<ImageWord> = [
  itself('not yet', ['to do', 'todo', 'open', 'no', 'not taken', 'not done', 'not started', 'planned', 'to come']),
  itself('kept', ['done', 'ok', 'good', 'fine', 'yes', 'taken', 'finished', 'complete', 'completed', 'accepted']),
  itself('unreviewed', ['not reviewed', 'to review', 'to be reviewed', 'waiting for review', 'awaiting review']),
  itself('flagged', ['bad', 'repeat', 'to repeat', 'redo', 'again', 'retake', 'to retake', 'rejected', 'failed']),
  itself('running', ['scanning', 'in progress', 'under way', 'now']),
  itself('given up', ['gave up', 'abandoned', 'skipped', 'dropped']),
];

export const STANDING_WORDS: Words<Standing> = [
  itself('not begun', ['not started', 'not set up', 'not yet', 'to be set up']),
  itself('at work', ['running', 'scanning', 'working', 'imaging', 'measuring', 'engaged', 'in use', 'busy', 'on']),
  itself('retracted', ['withdrawn', 'lifted', 'paused', 'not engaged']),
  itself('closed', ['idle', 'standing idle', 'off', 'stopped', 'shut']),
];

export const JUDGED_WORDS: Words<Judgement> = [
  { meaning: 'sound', name: 'sound', also: ['ok', 'good', 'fine', 'passed', 'intact'] },
  { meaning: 'flagged by an image', name: 'flagged', also: ['bad', 'flagged by an image', 'spoiled'] },
  { meaning: 'failed a check', name: 'failed', also: ['failed a check', 'failed check', 'check failed'] },
];

/** What a check on a reference structure said. */
export const CHECK_WORDS: Words<'passed' | 'failed'> = [
  itself('passed', ['ok', 'good', 'yes', 'sound']),
  itself('failed', ['bad', 'no', 'worn', 'broken']),
];

/** What stands for "there is none", and what else people write for it. */
export const NONE = 'none';
const NOTHING = [NONE, 'no', 'nothing'];

export function isNone(text: string): boolean {
  return NOTHING.includes(plain(text));
}

/** Names and words are compared by letters and digits alone. */
export function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** What a text means, in the words of the table or in others for them. */
export function readWord<Meaning>(text: string, words: Words<Meaning>): Reading<Meaning> {
  const found = words.find(({ name, also }) => [name, ...also].some((word) => plain(word) === plain(text)));
  if (found !== undefined) return { ok: true, value: found.meaning };
  return {
    ok: false,
    message: `read ${show(text)}${suggestion(
      text,
      words.map(({ name }) => name),
    )}`,
  };
}

/** How the table says it. */
export function wordFor<Meaning>(meaning: Meaning, words: Words<Meaning>): string {
  return words.find((word) => word.meaning === meaning)?.name ?? String(meaning);
}
