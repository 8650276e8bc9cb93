import { describe, expect, it } from 'vitest';
import { trajectoriesFor } from '../../../src/study/sensitivity/screen.js';
import { sensitivity, sensitivityWork } from '../../../src/study/sensitivity/sensitivity.js';
import { sensitivityAnswer } from '../../../src/study/sensitivity/words.js';
import type { Sensitivity } from '../../../src/study/sensitivity/results.js';
import { Stopped } from '../../../src/study/work/work.js';
import { KNOWN, KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';
import { stoppedAfter } from '../../support/stopped.js';

const RECORD = { file: 'known.yaml', sha256: '0', toolVersion: '0', seed: 'sensitivity' };
const REGIONS = 5;

/** Known answer 4 with one preparation, and a range of it; all else has a source, so it alone is assumed. */
function scenario(prepare: string, range = '[200 s, 900 s]'): string {
  const sources = ['plan', 'tips', 'workflows.swap', 'noticing', 'rules', 'costs', 'stock', 'pace']
    .map((path) => `  ${path}: by hand\n`)
    .join('');
  const hop = ['mishandling', 'specimenLoss', 'chip', 'fineRange']
    .map((path) => `  workflows.hop.${path}: by hand\n`)
    .join('');
  const steps = ['setUp', 'warmUp', 'locate', 'retract', 'offset', 'coarseMove', 'approach', 'resonance', 'settle']
    .concat('register', 'chipExchange', 'prepare.success')
    .map((path) => `  workflows.hop.steps.${path}: by hand\n`)
    .join('');
  return `${KNOWN_TEXT.replace('fixed: 420 s', `fixed: ${prepare}`)}sources:
${sources}${hop}${steps}ranges:
  workflows.hop.steps.prepare.fixed: ${range}
`;
}

function run(text: string, isAll = false): Sensitivity {
  return sensitivity(loadedFrom(text), { ...RECORD, between: ['swap', 'hop'], measure: 'time', isAll });
}

describe('a value that both workflows have alike', () => {
  const setUp = { swap: 'workflows.swap.steps.setUp', hop: 'workflows.hop.steps.setUp' };
  const steps = ['warmUp', 'locate', 'retract', 'exchange', 'align', 'resonance', 'approach', 'relocate', 'settle'];
  const known = ['mishandling', 'haste', ...steps.map((step) => `steps.${step}`)];
  const text = scenario('700 s')
    .replaceAll('setUp: 0 s', 'setUp: 60 s')
    .replace('  workflows.swap: by hand\n', known.map((path) => `  workflows.swap.${path}: by hand\n`).join(''))
    .replace('  workflows.hop.steps.setUp: by hand\n', '')
    .replace(
      'ranges:\n',
      `ranges:\n${Object.values(setUp)
        .map((path) => `  ${path}: [30 s, 600 s]\n`)
        .join('')}`,
    );
  const result = run(text);

  it('is tried once, in both', () => {
    const swings = result.swings.filter(({ path }) => Object.values(setUp).includes(path));
    expect(swings.map(({ path }) => path)).toEqual([setUp.swap]);
    expect(swings[0].description).toMatch(/, in both workflows$/u);
    expect(swings[0].most).toBeCloseTo(0, 6);
  });

  it('has no effect on the difference where all values change at once', () => {
    const effect = result.morris?.effects.find(({ path }) => path === setUp.swap);
    expect(effect?.effects).toBeGreaterThan(1);
    expect(effect?.muStar.value).toBeCloseTo(0, 6);
    expect(result.morris?.effects[0].muStar.value).toBeGreaterThan(100);
  });
});

describe('a value whose range turns the verdict', () => {
  const result = run(scenario('700 s'));
  const swing = result.swings.find(({ path }) => path === 'workflows.hop.steps.prepare.fixed');

  it('says at which value it does, as known answer 4 has it by hand', () => {
    // Equal where P/s = (c_swap - c_hop) Np/(1-p): P = 400 s, of which the 95 % interval of this seed holds 400 s.
    const { success, breaks, swap, hop } = KNOWN;
    const truth = (success * (swap - hop) * REGIONS * breaks) / (1 - breaks);
    expect(truth).toBeCloseTo(400, 9);
    expect(swing).toMatchObject({ turns: 'reversed', turning: { unit: 's', side: 'below' } });
    expect(swing?.turning?.low).toBeLessThanOrEqual(truth);
    expect(swing?.turning?.high).toBeGreaterThanOrEqual(truth);
    expect(swing?.turning?.low).toBeGreaterThan(300);
    expect(swing?.turning?.high).toBeLessThan(500);
  });

  it('says so in words, and the answer does not stand', () => {
    expect(result.better).toBe('swap');
    expect(result.answer.decided).toBe(false);
    expect(result.answer.sentences.join(' ')).toMatch(
      /The verdict turns if “.*” \(workflows\.hop\.steps\.prepare\.fixed, 700 s\) is below \d+(?:\.\d+)? s \(\d+(?:\.\d+)? to \d+(?:\.\d+)?\)\./u,
    );
  });

  it('changes the difference at an end by what the preparation changes there', () => {
    // On the same luck the change is (P' - P) times the tries of each replication: 1/s on average.
    const change = (swing?.low.difference?.value ?? 0) - result.difference.value;
    expect(change).toBeCloseTo((200 - 700) / KNOWN.success, -2);
    expect(swing?.most).toBeGreaterThan(Math.abs(change) - 1e-9);
  });
});

describe('words for a value that turns a difference at one end', () => {
  const result = run(scenario('700 s'));
  const turned = result.swings.filter(({ turns }) => turns !== null);
  const unplaced = turned.map((swing) => ({ ...swing, turning: null }));

  it('name that end alone where the place between was not found', () => {
    const { sentences } = sensitivityAnswer({ ...result, swings: unplaced }, 'EUR');
    expect(sentences.join(' ')).toContain('(workflows.hop.steps.prepare.fixed, 700 s) is 200 s.');
  });

  it('speak of no other sign where the two are not told apart as the values stand', () => {
    const spoken = (better: string | null) => sensitivityAnswer({ ...result, better }, 'EUR').sentences.join(' ');
    expect(spoken('swap')).toMatch(/the mean of 12 campaigns had the other sign at \d+ % .*, in part by luck\./u);
    expect(spoken(null)).not.toContain('other sign');
  });
});

describe('a value at whose end the difference is no longer clear, though of the same sign', () => {
  it('is said to leave the two not told apart, and the answer does not stand', () => {
    // The two are equal at 400 s, of which 401 s is not told.
    const result = run(scenario('700 s', '[401 s, 900 s]'));
    const swing = result.swings.find(({ path }) => path === 'workflows.hop.steps.prepare.fixed');
    expect(swing).toMatchObject({ turns: 'no longer told apart' });
    expect(result.answer.sentences.join(' ')).toMatch(/It is no longer told apart if “.*” \(.*\) is /u);
    expect(result.answer.decided).toBe(false);
  });
});

describe('a value that turns nothing', () => {
  it('leaves the answer as it is, which says so', () => {
    const result = run(scenario('700 s', '[600 s, 900 s]'));
    expect(result.swings.every(({ turns }) => turns === null)).toBe(true);
    expect(result.answer.sentences.join(' ')).toContain('turns at neither end of the range of any of the');
    expect(result.answer.decided).toBe(true);
  });
});

describe('elementary effects of a scenario', () => {
  const result = run(scenario('700 s'));

  it('weigh the one value that matters by what it changes over its whole range', () => {
    const effect = result.morris?.effects.find(({ path }) => path === 'workflows.hop.steps.prepare.fixed');
    // Linear: every effect is (900 - 200) s times the tries of its replications, whose mean is 1/s = 1.25; 875 s.
    // Tries have standard deviation 0.56, and 12 replications in each of at least 4 trajectories: six standard errors are 340 s.
    expect(effect?.muStar.value).toBeGreaterThan(875 - 340);
    expect(effect?.muStar.value).toBeLessThan(875 + 340);
    expect(effect?.mu).toBeCloseTo(effect?.muStar.value ?? 0, 9);
    expect(result.morris?.effects.slice(1).every(({ muStar }) => muStar.value < 875)).toBe(true);
  });

  it('take as many trajectories as can be afforded, never fewer than four', () => {
    expect([1, 40, 95, 1000].map(trajectoriesFor)).toEqual([16, 16, 6, 4]);
  });
});

describe('an end that is no scenario', () => {
  it('is not tried, and the reason stands in its place', () => {
    // At a tenth of its rate a scan of a minute takes ten, which fits into no booking of five.
    const ranges = 'ranges:\n  plan.passes.image.lineRate: [0.1 Hz, 1 Hz]\n';
    const tight = scenario('700 s').replace('ranges:\n', ranges).replace('  plan: by hand\n', '');
    const bound = `${tight}bookings: { hours: 'Mo-Fr 09:00-09:05' }\noperators: { hours: always }\n`;
    const { swings, answer } = run(bound);
    const swing = swings.find(({ path }) => path === 'plan.passes.image.lineRate');
    expect(swing?.low).toMatchObject({ at: '0.1 Hz', difference: null });
    expect(swing?.low.notTried).toMatch(/booking/u);
    expect(swing?.high.difference).not.toBeNull();
    expect(answer.sentences.join(' ')).toContain('plan.passes.image.lineRate could not be tried');
  });
});

describe('a sensitivity that is stopped by hand', () => {
  it('says what is known of values one at a time once all are at both ends, and decides nothing', () => {
    const whole = run(scenario('700 s'));
    const loaded = loadedFrom(scenario('700 s'));
    const stoppedIn = (round: number): Sensitivity | null => {
      try {
        const options = { ...RECORD, between: ['swap', 'hop'], measure: 'time', isAll: false } as const;
        return stoppedAfter(sensitivityWork(loaded, options), round);
      } catch (error) {
        if (error instanceof Stopped) return null;
        throw error;
      }
    };
    const found: Sensitivity[] = [];
    for (let round = 0; ; round += 1) {
      const result = stoppedIn(round);
      if (result !== null && !result.stopping.startsWith('stopped by hand')) break;
      if (result !== null) found.push(result);
      // Once there is something to say, there is more and more.
      else expect(found).toEqual([]);
    }
    expect(stoppedIn(0)).toBeNull();
    expect(found.length).toBeGreaterThan(1);
    for (const result of found) {
      expect(result.morris).toBeNull();
      expect(result.answer.decided).toBe(false);
      expect(result.answer.sentences[0]).toBe(`Not decided: ${result.stopping}.`);
      expect(result.swings.map(({ path, low, high }) => ({ path, low, high }))).toEqual(
        whole.swings.map(({ path, low, high }) => ({ path, low, high })),
      );
    }
    expect(found[0].swings.every(({ turning }) => turning === null)).toBe(true);
    expect(found.at(-1)?.swings).toEqual(whole.swings);
  });
});
