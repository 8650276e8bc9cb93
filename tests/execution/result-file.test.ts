import { describe, expect, it } from 'vitest';
import { runJob } from '../../src/execution/in-process.js';
import type { Job } from '../../src/execution/job.js';
import { jobKey } from '../../src/execution/machine/job-key.js';
import { openResultFile, resultFile } from '../../src/execution/machine/result-file.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const whole: Job = {
  experiment: { kind: 'strategies', strategies },
  ...{ seed: 'kept', from: 11, to: 20, wants: { cut: true, sums: true } },
};
const part: Job = { ...whole, from: 1, to: 3, wants: { timeParts: true, tipsOf: ['a.b c'] } };

const made = () => Buffer.concat([...resultFile({ about: 'Ω\n' }, [whole, part].map(completed))]);
const file = made();

function completed(job: Job) {
  return { job, result: runJob(job) };
}

describe('a file of results', () => {
  it('gives back its notes and every result to the bit, wherever it lies in memory', () => {
    for (const offset of [0, 1, 5]) {
      const opened = openResultFile(Buffer.concat([Buffer.alloc(offset), file]).subarray(offset));
      expect(opened.notes).toEqual({ about: 'Ω\n' });
      expect(opened.segments).toMatchObject([whole, part].map((job) => ({ key: jobKey(job), from: job.from })));
      expect([opened.read(1), opened.read(0)]).toEqual([runJob(part), runJob(whole)]);
    }
  });

  it('is the same to the byte when it is written again', () => {
    expect(made().equals(file)).toBe(true);
  });

  it('has a line that says what it is, one of JSON, and then the numbers, as anybody can read them', () => {
    const [start, json] = file.toString('latin1').split('\n', 2);
    expect(start).toMatch(/^swap-or-hop results 1 [BL]E$/u);
    expect(json).toContain(`"strategy":"${strategies[1].name}","columns":["totalTime",`);
    const first = file.readDoubleLE(start.length + 1 + json.length + 1);
    expect(first).toBe(runJob(whole)[0].columns['totalTime'][0]);
  });

  it('is refused wherever a single bit of it is another one', () => {
    const step = Math.max(1, Math.floor(file.length / 200));
    for (let at = 0; at < file.length; at += step) {
      const damaged = Buffer.from(file);
      damaged[at] ^= 1;
      expect(() => openResultFile(damaged), `byte ${at}`).toThrow(/damaged|does not begin|cut short/);
    }
  });

  it('is refused where a machine of the other byte order wrote it', () => {
    const [start] = file.toString('latin1').split('\n', 1);
    const other = Buffer.from(file);
    other.write(start.endsWith('LE') ? 'BE' : 'LE', start.length - 2);
    expect(() => openResultFile(other)).toThrow('it does not begin like one of this version');
  });

  it('is refused at every length but its own', () => {
    for (let length = 0; length < file.length; length += 97)
      expect(() => openResultFile(file.subarray(0, length)), `${length} bytes`).toThrow(/does not begin|cut short/);
    expect(() => openResultFile(Buffer.concat([file, file]))).toThrow(/damaged/);
  });
});

describe('the key of a job', () => {
  it('says nothing of the segment, and is another one for another seed, setting or want', () => {
    const key = jobKey(whole);
    expect(jobKey({ ...whole, from: 1, to: 2 })).toBe(key);
    const [first, ...others] = strategies;
    const changed = { ...first, settings: { ...first.settings, instruments: first.settings.instruments + 1 } };
    const keys = [
      { ...whole, seed: 'kept ' },
      { ...whole, wants: { cut: true } },
      { ...whole, experiment: { kind: 'strategies' as const, strategies: [changed, ...others] } },
      { ...whole, experiment: { kind: 'strategies' as const, strategies: [...others, first] } },
    ].map(jobKey);
    expect(new Set([key, ...keys]).size).toBe(5);
  });
});
