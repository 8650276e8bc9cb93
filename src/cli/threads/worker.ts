/** What a thread does: it takes a task, and gives back what came of it. It imports no more than it needs for that. */

import { deserialize } from 'node:v8';
import { carryOut } from '../../study/work/carry-out.js';
import type { Play } from '../../study/work/order.js';
import type { PackedPlay, ThreadTask } from './message.js';

/** Images of the plays that a thread keeps ready; of more, those used longest ago go. */
const MOST_IMAGES = 200_000;

const known = new Map<number, { readonly play: Play; readonly images: number }>();

/** Answers of stretches in their order, or the text of a picture. */
export default async function perform(task: ThreadTask): Promise<unknown> {
  if (task.kind === 'stretches')
    return task.stretches.map(({ play, ...order }) => carryOut({ ...order, play: unpacked(play) }));
  const { renderPicture } = await import('../../report/render.js');
  return (await renderPicture(task.spec, task.words)).svg;
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
