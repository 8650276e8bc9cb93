import { parquetReadObjects } from 'hyparquet';
import { describe, expect, it } from 'vitest';
import { type Kept, keptFile, openKept } from '../../../src/cli/kept/kept-file.js';
import { orderKey } from '../../../src/cli/kept/order-key.js';
import { carryOut } from '../../../src/study/work/carry-out.js';
import type { Order } from '../../../src/study/work/order.js';
import { KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const names = strategies.map(({ name }) => name);
const whole: Order = {
  play: { kind: 'strategies', strategies },
  ...{ seed: 'kept', from: 11, to: 20, wants: { cut: true, sums: true } },
};
const part: Order = { ...whole, from: 1, to: 3, wants: { timeParts: true, tipsOf: ['a.b c'] } };

function kept(order: Order): Kept {
  return { key: orderKey(order), from: order.from, to: order.to, strategies: names, answer: carryOut(order) };
}

const stretches = [kept(whole), kept(part)];
const file = keptFile({ about: 'Ω' }, stretches, 'small');

describe('a file of kept answers', () => {
  it('gives back its notes and every answer to the bit', async () => {
    const opened = openKept(file);
    expect(opened.notes['about']).toBe('Ω');
    expect(opened.stretches).toMatchObject(stretches.map(({ key, from, to }) => ({ key, from, to })));
    for (const [place, { answer }] of stretches.entries()) expect(await opened.read(place)).toEqual(answer);
  });

  it('is the same to the byte when it is written again', () => {
    expect(keptFile({ about: 'Ω' }, [kept(whole), kept(part)], 'small').equals(file)).toBe(true);
  });

  it('is a table of replications to any reader of Parquet', async () => {
    const rows = await parquetReadObjects({ file: new Uint8Array(file).buffer });
    expect(rows).toHaveLength(26);
    expect(rows[12]).toMatchObject({ stretch: 0, strategy: names[1], replication: 13 });
    expect(rows[12]['totalTime']).toBe(stretches[0].answer[1].columns['totalTime'][2]);
    expect(rows[12]['tips of a.b c']).toBeNaN();
    expect(rows[20]['tips of a.b c']).toBe(0);
  });

  it('is refused wherever a single bit of it is another one', () => {
    const step = Math.max(1, Math.floor(file.length / 200));
    for (let at = 0; at < file.length; at += step) {
      const damaged = Buffer.from(file);
      damaged[at] ^= 1;
      expect(() => openKept(damaged), `byte ${at}`).toThrow(/damaged|no Parquet|cut short|something else/);
    }
  });

  it('is refused at every length but its own', () => {
    for (let length = 0; length < file.length; length += 97)
      expect(() => openKept(file.subarray(0, length)), `${length} bytes`).toThrow(/no Parquet|cut short/);
    expect(() => openKept(Buffer.concat([file, Buffer.from('PAR1')]))).toThrow(/damaged/);
  });
});

describe('the key of an order', () => {
  it('says nothing of the stretch, and is another one for another seed, setting or want', () => {
    const key = orderKey(whole);
    expect(orderKey({ ...whole, from: 1, to: 2 })).toBe(key);
    const [first, ...others] = strategies;
    const changed = { ...first, settings: { ...first.settings, instruments: first.settings.instruments + 1 } };
    const keys = [
      { ...whole, seed: 'kept ' },
      { ...whole, wants: { cut: true } },
      { ...whole, play: { kind: 'strategies' as const, strategies: [changed, ...others] } },
      { ...whole, play: { kind: 'strategies' as const, strategies: [...others, first] } },
    ].map(orderKey);
    expect(new Set([key, ...keys]).size).toBe(5);
  });
});
