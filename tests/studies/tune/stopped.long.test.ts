import { describe, expect, it } from 'vitest';
import { tuneReport } from '../../../src/studies/tune/report.js';
import { LOOK } from '../../../src/studies/tune/look.js';
import type { TuneResult } from '../../../src/studies/tune/results.js';
import { Stopped } from '../../../src/execution/work.js';
import { plainText } from '../../support/scene.js';
import { said } from '../../support/said.js';
import { stoppedAfter } from '../../support/stopped.js';
import { type Asked, tuned, tuning } from '../../support/tuned.js';
import { textsOf } from '../../support/report-texts.js';
import { nonEmpty } from '../../support/non-empty.js';

const text = plainText({
  regions: 6,
  hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 3, scale: 4 } }],
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
  for (let rounds = 1; ; rounds += 1) if (!stopped(rounds + 2, 1).stopping.startsWith('interrupted')) return rounds + 2;
}

describe('tuning that is interrupted', () => {
  it.each([
    [0, 1],
    [1, 0.5],
  ])('has nothing to say before all settings were looked at (%d rounds, %d of the next)', (rounds, share) => {
    expect(() => stopped(rounds, share)).toThrow(Stopped);
  });

  it('says what the first look came to, and that nothing is decided, where the selection had hardly begun', () => {
    const found = stopped(2, 0.5);
    const whole = tuned(text, asked);
    expect(found.stopping).toBe(
      'interrupted, before the best was selected and compared; what is said is of 50 replications of each setting',
    );
    expect(found.answer.decided).toBe(false);
    expect(said(found.answer)[0]).toBe(`Inconclusive: ${found.stopping}.`);
    expect(said(found.answer)[1]).toMatch(
      /^So far 4 images for “Use after which a tip is replaced” has the best mean of instrument time of those that have the yield wanted, by its interval alone: /,
    );
    expect(found.warnings).toContain(found.stopping);
    expect([found.winner, found.snippet]).toEqual([null, null]);
    expect(found.procedure).toMatchObject({ isDecided: false, replications: { look: LOOK, comparison: 0 } });
    expect(found.settings.map(({ settings }) => settings)).toEqual(whole.settings.map(({ settings }) => settings));
    for (const { standing, loss } of nonEmpty(found.settings)) expect([standing, loss]).toEqual(['no winner', null]);
  });

  it('names no setting the best that is not known to have the yield wanted', () => {
    // Nobody reviews: a tip once broken spoils what follows, and the yield is the lower the later a tip goes.
    const spoiling = plainText({
      regions: 30,
      hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 3, scale: 10 } }],
      noticing: { review: { by: 'nobody' } },
      steps: { exchange: 120 },
    });
    const stoppedAt = (yieldAtLeast: number) => {
      const vary = ['rules.after=3 images, 6 images, 12 images, 24 images'];
      const found = stoppedAfter(tuning(spoiling, { vary, yieldAtLeast }), 2, 0.5);
      if (!found.ok) throw new Error(found.message);
      return found.value;
    };
    const some = stoppedAt(0.85);
    expect(some.settings.map(({ meets }) => meets)).toEqual(['meets', 'meets', 'fails', 'fails']);
    // The later a tip goes, the sooner it is done.
    expect(said(some.answer)[1]).toMatch(
      /^So far 6 images for “Use after which a tip is replaced” has the best mean of instrument time of those that/,
    );
    expect(said(some.answer)[2]).toBe(
      'A yield of at least 85 % is wanted; 2 of 4 settings are known so far to have it.',
    );
    expect(some.procedure.text).toContain('was to be found by the sequential check');
    expect(said(stoppedAt(0.999).answer)[1]).toMatch(/^No setting is known so far to have what is wanted\./);
  });

  it('says of all settings what the same replications of the selection came to', () => {
    const found = stopped(8, 0);
    const [, count] = /what is said is of (\d+) replications of each setting$/.exec(found.stopping) ?? [];
    expect(Number(count)).toBeGreaterThanOrEqual(LOOK);
    // None of its replications are those of the first look.
    expect(found.settings.map(({ goal }) => goal)).not.toEqual(stopped(2, 0).settings.map(({ goal }) => goal));
  });

  it('says what the comparison came to by then, where the selection had ended, and gives nothing to paste', () => {
    const found = stopped(roundsOf() - 1, 0);
    const { comparison } = found.procedure.replications;
    expect(found.stopping).toBe(
      `interrupted after ${comparison} replications, before all were run; the selection had ended`,
    );
    expect(found.settings[found.winner ?? -1].settings).toEqual(tuned(text, asked).settings[2].settings);
    expect(found.answer.decided).toBe(false);
    expect(found.snippet).toBeNull();
  });

  it('says nothing of a choice that was made but not compared', () => {
    const isCompared = (rounds: number) => stopped(rounds, 0).procedure.replications.comparison > 0;
    let rounds = 2;
    while (!isCompared(rounds)) rounds += 1;
    const found = stopped(rounds - 1, 0.5);
    expect(found.stopping).toContain('before the best was selected and compared');
    expect(found).toMatchObject({ winner: null, procedure: { isDecided: false } });
    expect(nonEmpty(found.settings).every(({ eliminatedAfter }) => eliminatedAfter === null)).toBe(true);
  });

  it.each([2, 8])('after %d rounds makes a report of that, without pictures, which promises none', async (rounds) => {
    const found = stopped(rounds, 0.5);
    const files = await textsOf(tuneReport, found, null);
    expect([...files.keys()].sort()).toEqual(['report.html', 'summary.json', 'tune.csv']);
    const page = files.get('report.html') ?? '';
    for (const shown of [page, tuneReport.text(found, { strong: plain, quiet: plain, warning: plain })])
      expect(shown.replace(/\s+/gu, ' ')).toContain(`Inconclusive: ${found.stopping}.`);
    expect(page).not.toMatch(/charts\/|setting\.yaml|swap-or-hop verify|Means over 0|no winner<|NaN/);
  });
});
