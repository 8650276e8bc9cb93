import { describe, expect, it } from 'vitest';
import { sensitivityAnswer } from '../../../src/studies/sensitivity/words.js';
import { normalCdf } from '../../../src/chance/elementary.js';
import { KNOWN } from '../../support/known-break-even.js';
import { knownRange, tried } from '../../support/known-sensitivity.js';
import { said } from '../../support/said.js';
import { nonEmpty } from '../../support/non-empty.js';

const REGIONS = 5;

/** As the preparation stands, its range holds the break-even. */
const STANDING = tried(knownRange('700 s'));

describe('a value that both workflows have alike', () => {
  const setUp = { swap: 'workflows.swap.steps.setUp', hop: 'workflows.hop.steps.setUp' };
  const steps = ['warmUp', 'locate', 'retract', 'exchange', 'align', 'resonance', 'approach', 'relocate', 'settle'];
  const known = ['mishandling', 'haste', ...steps.map((step) => `steps.${step}`)];
  const text = knownRange('700 s')
    .replaceAll('setUp: 0 s', 'setUp: 60 s')
    .replace('  workflows.swap: by hand\n', known.map((path) => `  workflows.swap.${path}: by hand\n`).join(''))
    .replace('  workflows.hop.steps.setUp: by hand\n', '')
    .replace(
      'ranges:\n',
      `ranges:\n${Object.values(setUp)
        .map((path) => `  ${path}: [30 s, 600 s]\n`)
        .join('')}`,
    );
  const result = tried(text);

  it('is tried once, in both', () => {
    const swings = result.swings.filter(({ path }) => Object.values(setUp).includes(path));
    expect(swings.map(({ path }) => path)).toEqual([setUp.swap]);
    expect(swings[0].description).toMatch(/, in both workflows$/u);
    expect(swings[0].most).toBeCloseTo(0, 6);
  });

  it('has no share in the variance of the difference where all values are drawn at once', () => {
    const [first, second] = result.atOnce?.weights ?? [];
    expect(first).toMatchObject({ path: 'workflows.hop.steps.prepare.fixed' });
    expect(first.first).toBeGreaterThan(0.99);
    expect(second).toMatchObject({ path: setUp.swap, first: 0 });
    // A term of noise is taken in now and then, which leaves less than half a percent.
    expect(second.total).toBeLessThan(0.005);
  });
});

describe('a value whose range turns the verdict', () => {
  const result = STANDING;
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
    expect(said(result.answer).join(' ')).toMatch(
      /^“hop” may take .* more instrument time \(95 % interval .*\) than “swap”\. This rests on “[^”]*” being 700 s \(no source\); below \d+(?:\.\d+)? s \(\d+(?:\.\d+)? to \d+(?:\.\d+)?\) it reverses\./u,
    );
  });

  it('changes the difference at an end by what the preparation changes there', () => {
    // On common random numbers the change is (P' - P) times the tries of each replication: 1/s on average.
    const change = (swing?.low.difference?.value ?? 0) - result.difference.value;
    expect(change).toBeCloseTo((200 - 700) / KNOWN.success, -2);
    expect(swing?.most).toBeGreaterThan(Math.abs(change) - 1e-9);
  });
});

describe('words for a value that turns a difference at one end', () => {
  const result = STANDING;
  const turned = result.swings.filter(({ turns }) => turns !== null);
  const unplaced = turned.map((swing) => ({ ...swing, turning: null }));

  it('name that end alone where the place between was not found', () => {
    const { headline } = sensitivityAnswer({ ...result, swings: unplaced }, 'EUR');
    expect(headline.join(' ')).toContain('being 700 s (no source); at 200 s it reverses.');
  });

  it('speak of no other sign where the two show no clear difference as the values stand', () => {
    const spoken = (better: string | null) => said(sensitivityAnswer({ ...result, better }, 'EUR')).join(' ');
    expect(spoken('swap')).toMatch(/the other sign in \d+(?:\.\d+)? % \(.* to .*\) of the draws\./u);
    expect(spoken(null)).not.toContain('other sign');
  });
});

describe('a value at whose end the difference is no longer clear, though of the same sign', () => {
  it('is said to leave the two no clear difference, and the answer does not stand', () => {
    // The two are equal at 400 s, of which 401 s is not told.
    const result = tried(knownRange('700 s', '[401 s, 900 s]'));
    const swing = result.swings.find(({ path }) => path === 'workflows.hop.steps.prepare.fixed');
    expect(swing).toMatchObject({ turns: 'no longer clear' });
    expect(said(result.answer).join(' ')).toMatch(/being 700 s \(no source\); at 401 s it is no longer clear\./u);
    expect(result.answer.decided).toBe(false);
  });
});

describe('a value that turns nothing', () => {
  it('leaves the answer as it is, which says so', () => {
    const result = tried(knownRange('700 s', '[600 s, 900 s]'));
    expect(nonEmpty(result.swings).every(({ turns }) => turns === null)).toBe(true);
    expect(said(result.answer).join(' ')).toContain(
      'That does not reverse within the range of the only assumed value.',
    );
    expect(result.answer.decided).toBe(true);
  });
});

describe('all values drawn at once', () => {
  it('give the one value that matters the whole variance, and the other sign where it lies below the break-even', () => {
    const { atOnce, difference } = STANDING;
    expect(difference.value).toBeGreaterThan(0);
    expect(atOnce?.weights).toHaveLength(1);
    expect(atOnce?.weights[0]).toMatchObject({
      path: 'workflows.hop.steps.prepare.fixed',
      within: '200 s to 900 s',
    });
    expect(atOnce?.weights[0].first).toBeGreaterThan(0.99);
    expect(atOnce?.explained).toBeGreaterThan(0.99);
    // Equal at 400 s, of a lognormal whose middle 95 % are 200 s to 900 s: P(x < 400 s) by hand.
    const middle = (Math.log(200) + Math.log(900)) / 2;
    const below = normalCdf((Math.log(400) - middle) / (Math.log(900 / 200) / (2 * 1.959964)), 0, 1);
    // Five standard errors of a share of 2000 draws are 0.056; the noise of four replications moves some draws across, as many again at most.
    expect(Math.abs((atOnce?.otherSign.value ?? 0) - below)).toBeLessThan(0.112);
  });
});
