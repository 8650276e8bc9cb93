import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Journal, removeJournal } from '../../../src/cli/journal.js';
import { type Kept, keptFile } from '../../../src/cli/kept/kept-file.js';
import { KnownAnswers } from '../../../src/cli/kept/known.js';
import { orderKey } from '../../../src/cli/kept/order-key.js';
import { PendingAnswers } from '../../../src/cli/kept/pending.js';
import { programHash } from '../../../src/cli/kept/program.js';
import { carryOut } from '../../../src/study/work/carry-out.js';
import type { Order } from '../../../src/study/work/order.js';
import { inEmptyFolder } from '../../support/command.js';
import { KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const order: Order = {
  play: { kind: 'strategies', strategies },
  ...{ seed: 'journal', from: 1, to: 9, wants: { sums: true } },
};

function kept(from: number, to: number): Kept {
  const answer = carryOut({ ...order, from, to });
  return { key: orderKey(order), from, to, strategies: ['a', 'b'], answer };
}

const stretches = (known: readonly { readonly from: number; readonly to: number }[]) =>
  known.map(({ from, to }) => [from, to]);

describe('a journal', () => {
  it('takes over what this program wrote down, and nothing of another one', async () => {
    await inEmptyFolder(async (folder) => {
      for (const [name, program, from] of [
        ['0', programHash(), 2],
        ['1', 'another', 3],
      ] as const) {
        const file = join(folder, `${name.repeat(24)}.parquet`);
        writeFileSync(file, keptFile({ 'swap-or-hop.program': program }, [kept(from, from)], 'quick'));
      }
      const journal = await Journal.open(folder);
      expect(stretches(journal.known({ ...order, seed: 'another' }))).toEqual([]);
      const known = journal.known(order);
      expect(stretches(known)).toEqual([[2, 2]]);
      expect(known[0].read()).toEqual(carryOut({ ...order, from: 2, to: 2 }));
      expect(journal.takenOver).toBe(2);
    });
  });

  it('is nothing where there is none, and goes without what a person laid there', async () => {
    await inEmptyFolder(async (folder) => {
      const place = join(folder, '.report.unfinished');
      expect(stretches((await Journal.open(place)).known(order))).toEqual([]);
      removeJournal(place);
      mkdirSync(place);
      writeFileSync(join(place, 'letter.txt'), '');
      writeFileSync(join(place, `${'a'.repeat(24)}.parquet`), '');
      removeJournal(place);
      expect(readdirSync(place)).toEqual(['letter.txt']);
    });
  });
});

describe('known answers', () => {
  it('are those within the order, without overlap, and each of them once', () => {
    const answers = new KnownAnswers();
    for (const [from, to] of [
      [4, 6],
      [1, 2],
      [6, 7],
      [8, 10],
    ] as const)
      answers.add(kept(from, to));
    expect(stretches(answers.of(order))).toEqual([
      [1, 2],
      [4, 6],
    ]);
    expect(stretches(answers.of(order))).toEqual([[6, 7]]);
    expect(stretches(answers.of({ ...order, to: 10 }))).toEqual([[8, 10]]);
  });
});

describe('answers that are not written yet', () => {
  it('are put together where they follow upon each other, in whichever order they came', () => {
    const pending = new PendingAnswers();
    for (const from of [1, 2, 5, 3, 6]) {
      const stretch = { ...order, from, to: from };
      pending.add(stretch, carryOut(stretch));
    }
    const all = pending.takeAll();
    expect(stretches(all)).toEqual([
      [1, 3],
      [5, 6],
    ]);
    expect(all[0].answer).toEqual(carryOut({ ...order, from: 1, to: 3 }));
    expect(all[0].strategies).toEqual(strategies.map(({ name }) => name));
    expect(pending.numbers).toBe(0);
    expect(pending.takeAll()).toEqual([]);
  });
});
