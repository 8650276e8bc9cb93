/** What a thread does: it takes a task, and gives back what came of it. It imports no more than it needs for that. */

import { deserialize, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { carryOut } from '../../study/work/carry-out.js';
import type { Play } from '../../study/work/order.js';
import type { PackedPlay, ThreadTask } from './message.js';

/** Images of the plays that a thread keeps ready; of more, those used longest ago go. */
const MOST_IMAGES = 200_000;

/** Images of a play behind whose campaigns a thread clears up: left to itself it lets some hundred megabytes come together. */
const LARGE = 50_000;

function collectGarbage(): void {
  setFlagsFromString('--expose-gc');
  runInNewContext('gc()');
}

const known = new Map<number, { readonly play: Play; readonly images: number }>();

/** Answers of stretches in their order, or the text of a picture. */
export default async function perform(task: ThreadTask): Promise<unknown> {
  if (task.kind === 'stretches') {
    const answers = task.stretches.map(({ play, ...order }) => carryOut({ ...order, play: unpacked(play) }));
    if (task.stretches.some(({ play }) => play.images >= LARGE)) collectGarbage();
    return answers;
  }
  const { drawHere } = await import('../../report/pictures.js');
  return drawHere(task.spec, task.words);
}

function unpacked({ key, bytes, images }: PackedPlay): Play {
  const found = known.get(key) ?? { play: readPlay(bytes), images };
  known.delete(key);
  known.set(key, found);
  let kept = Array.from(known.values()).reduce((sum, each) => sum + each.images, 0);
  for (const [oldest, each] of known) {
    if (kept <= MOST_IMAGES || oldest === key) break;
    known.delete(oldest);
    kept -= each.images;
  }
  return found.play;
}

function readPlay(bytes: Uint8Array): Play {
  const play: unknown = deserialize(bytes);
  if (!isPlay(play)) throw new Error('this is no play');
  return play;
}

function isPlay(value: unknown): value is Play {
  return typeof value === 'object' && value !== null && 'kind' in value;
}
