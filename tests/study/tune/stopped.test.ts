import { describe, expect, it } from 'vitest';
import { tuneFiles, tuneText } from '../../../src/report/tune/index.js';
import { LOOK } from '../../../src/study/tune/look.js';
import type { TuneResult } from '../../../src/study/tune/results.js';
import { Stopped } from '../../../src/study/work/work.js';
import { plainText } from '../../support/plain-scenario.js';
import { stoppedAfter } from '../../support/stopped.js';
import { type Asked, tuned, tuning } from '../../support/tuned.js';

const text = plainText({
  regions: 6,
  hazards: [{ cause: 'breakage', per: 'image', life: { law: 'weibull', shape: 3, scale: 4 } }],
  steps: { exchange: 60 },
});
const asked: Asked = { vary: ['rules.after=1 images, 2 images, 4 images, 6 images, none'] };
const plain = (shown: string) => shown;

/** Rounds: the present setting, all settings, then those of the selection, at last the comparison. */
function stopped(rounds: number, share: number, more: Partial<Asked> = {}): TuneResult {
  const found = stoppedAfter(tuning(text, { ...asked, ...more }), rounds, share);
  if (!found.ok) throw new Error(found.message);
  return found.value;
}

/** The rounds of a whole tuning. */
function roundsOf(): number {
  for (let rounds = 1; ; rounds += 1)
    if (!stopped(rounds + 2, 1).stopping.startsWith('stopped by hand')) return rounds + 2;
}

describe('tuning that is stopped by hand', () => {
  it.each([
    [0, 1],
    [1, 0.5],
  ])('has nothing to say before all settings were looked at (%d rounds, %d of the next)', (rounds, share) => {
    expect(() => stopped(rounds, share)).toThrow(Stopped);
  });

  it('says what the first look came to, and that nothing is decided, where the selection had hardly begun', () => {
    const found = stopped(2, 0.5);
    const whole = tuned(text, asked);
    expect(found.stopping).toBe('stopped by hand, before the best was selected and compared');
    expect(found.answer.decided).toBe(false);
    expect(found.answer.sentences[0]).toBe(`Not decided: ${found.stopping}.`);
    expect(found.answer.sentences[1]).toMatch(/^So far rules\.after = 4 images has the best mean of total time, /);
    expect(found.warnings).toContain(found.stopping);
    expect([found.winner, found.snippet]).toEqual([null, null]);
    expect(found.procedure).toMatchObject({ isDecided: false, replications: { look: LOOK, comparison: 0 } });
    expect(found.settings.map(({ settings }) => settings)).toEqual(whole.settings.map(({ settings }) => settings));
    for (const { standing, loss } of found.settings) expect([standing, loss]).toEqual(['no winner', null]);
  });

  it('names the best mean of those that do not fail the yield wanted', () => {
    // Whatever is set, six images are done within an hour; with less of it the later a tip goes, the more of them.
    const found = stopped(2, 1, { goal: 'most-yield', hours: 0.1 });
    const best = Math.max(...found.settings.map(({ goal }) => goal?.value ?? 0));
    const place = found.settings.findIndex(({ goal }) => goal?.value === best);
    const named = ['1 images', '2 images', '4 images', '6 images', 'none'][place];
    expect(found.answer.sentences[1]).toContain(`So far rules.after = ${named} has the best mean of yield`);
  });

  it('says more of what the selection has run by then', () => {
    const widthOf = ({ settings }: TuneResult) => {
      const goal = settings[2].goal;
      return goal === null ? NaN : goal.high - goal.low;
    };
    expect(widthOf(stopped(8, 0))).toBeLessThan(0.9 * widthOf(stopped(2, 0)));
  });

  it('says what the comparison came to by then, where the selection had ended, and gives nothing to paste', () => {
    const found = stopped(roundsOf() - 1, 0);
    const { comparison } = found.procedure.replications;
    expect(found.stopping).toBe(
      `stopped by hand after ${comparison} replications, before all were run; the selection had ended`,
    );
    expect(found.settings[found.winner ?? -1].settings).toEqual(tuned(text, asked).settings[2].settings);
    expect(found.answer.decided).toBe(false);
    expect(found.snippet).toBeNull();
  });

  it.each([2, 8])('after %d rounds makes a report of that, without pictures, which promises none', async (rounds) => {
    const found = stopped(rounds, 0.5);
    const files = await tuneFiles(found, null);
    expect([...files.keys()].sort()).toEqual(['report.html', 'summary.json', 'tune.csv']);
    const page = files.get('report.html') ?? '';
    for (const shown of [page, tuneText(found, { strong: plain, quiet: plain, warning: plain })])
      expect(shown.replace(/\s+/gu, ' ')).toContain(`Not decided: ${found.stopping}.`);
    expect(page).not.toMatch(/charts\/|setting\.yaml|swap-or-hop verify|Means over 0|NaN/);
  });
});
