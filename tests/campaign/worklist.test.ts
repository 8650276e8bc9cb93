import { describe, expect, it } from 'vitest';
import type { ImageModel } from '../../src/campaign/model.js';
import { Worklist } from '../../src/campaign/worklist.js';
import { plainModel } from '../support/scene.js';

/** Three regions of two images each, numbered by region. */
const { images } = plainModel({ regions: 3, passes: [{}, {}] });
const numbers = ({ state: { turns, again, repeats } }: Worklist) => ({ turns, again, repeats });

/** Takes so many images, as they come. @returns their numbers */
function take(list: Worklist, count: number): readonly number[] {
  return Array.from({ length: count }, () => {
    const due = list.next();
    if (due === null) throw new Error('nothing is due');
    list.took(due);
    return due.number;
  });
}

describe('what is taken next', () => {
  it('is the plan in its order, then nothing', () => {
    const list = new Worklist(images);
    expect(take(list, 6)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(list.next()).toBeNull();
  });

  it('is first what is to be taken again in place, last what is to be taken again elsewhere, each in plan order and once', () => {
    const list = new Worklist(images);
    take(list, 4);
    for (const place of [3, 1, 3]) list.retake(images[place], false);
    for (const place of [2, 0, 2]) list.retake(images[place], true);
    expect(numbers(list)).toEqual({ turns: [4, 5], again: [0, 2], repeats: [1, 3] });
    // What is to be taken again anyhow is not put on the other list.
    list.retake(images[0], false);
    list.retake(images[3], true);
    // What has not had its turn comes with it.
    list.retake(images[5], true);
    expect(take(list, 6)).toEqual([0, 2, 4, 5, 1, 3]);
    expect(list.next()).toBeNull();
  });

  it('is what is due in place, also where its turn in the plan comes next as well', () => {
    const list = new Worklist(images, { turns: [2, 3], again: [2], repeats: [], sample: 0, lostSamples: [] });
    expect(take(list, 3)).toEqual([2, 2, 3]);
  });

  it('is what a campaign that is taken up has left; what had its turn may be taken again', () => {
    const list = new Worklist(images, { turns: [1, 4], again: [], repeats: [0], sample: 0, lostSamples: [] });
    list.retake(images[3], false);
    list.retake(images[4], false);
    expect(numbers(list)).toEqual({ turns: [1, 4], again: [], repeats: [0, 3] });
    expect(take(list, 4)).toEqual([1, 4, 0, 3]);
  });
});

describe('a region that starts afresh', () => {
  const region: readonly ImageModel[] = images.slice(0, 2);

  it('has its images taken again that have had their turn, wherever they stood', () => {
    const list = new Worklist(images);
    take(list, 3);
    list.retake(images[1], false);
    list.restart(region, images[0], false);
    expect(numbers(list)).toEqual({ turns: [3, 4, 5], again: [0, 1], repeats: [] });
  });

  it('leaves alone what is to be taken again of other regions', () => {
    const list = new Worklist(images);
    take(list, 4);
    list.retake(images[2], true);
    list.retake(images[3], false);
    list.restart(region, images[0], false);
    expect(numbers(list)).toEqual({ turns: [4, 5], again: [0, 1, 2], repeats: [3] });
  });
});
