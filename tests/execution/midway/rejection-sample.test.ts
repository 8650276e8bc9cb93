import { describe, expect, it } from 'vitest';
import { rejectionSample, type Past } from '../../../src/execution/midway/rejection-sample.js';
import type { KnownTip } from '../../../src/execution/midway/known.js';
import type { CampaignModel } from '../../../src/campaign/model.js';
import { LuckTable } from '../../../src/chance/luck.js';
import type { Raw } from '../../support/run.js';
import { after, plainModel } from '../../support/scene.js';
import { nonEmpty } from '../../support/non-empty.js';

const LUCK = new LuckTable('pasts');
const PASTS = 3000;

/** One approach in three breaks the tip; a review misses one bad image in five and flags one good one in ten. */
const BREAKS = { cause: 'breakage', per: 'approach', life: { distribution: 'probability', perUnit: 0.3 } };
const JUDGES = { sensitivity: 0.8, falseAlarm: 0.1 };
const review = (more: Raw = JUDGES) => ({ review: { by: 'automatic', time: '1 s', ...more } });
const check = (more: Raw = JUDGES) => ({ check: { every: 4, time: '1 min', ...more } });

const broken = (noticing: Raw = review(), hazard: Raw = BREAKS): CampaignModel =>
  plainModel({ regions: 3, hazards: [hazard], noticing });

/** A new tip that has made these takes, each at a region of its own, unless `more` says otherwise. */
function tip(since: readonly number[], more: Partial<KnownTip> = {}): KnownTip {
  const takes = since.length + (more.flaggedImage === undefined ? 0 : 1);
  return {
    kind: 0,
    use: { images: takes, path: 0.1 * takes, hours: takes / 60, approaches: takes },
    ...{ isChecked: false, since, flaggedImage: null, judgement: 'sound', radius: null },
    ...more,
  };
}

function pasts(model: CampaignModel, known: KnownTip, count = PASTS): readonly Past[] {
  return Array.from({ length: count }, (_, i) =>
    rejectionSample(model, known, { luck: LUCK.replication(i), instrument: 0, number: 0 }),
  );
}

/** Held to within 5.5 standard errors: a false alarm in less than one of ten million, on a fixed seed. */
function expectShare(all: readonly Past[], chance: number, holds: (past: Past) => boolean): void {
  const share = all.filter(holds).length / all.length;
  expect(Math.abs(share - chance)).toBeLessThan(5.5 * Math.sqrt((chance * (1 - chance)) / all.length));
}

const isBad =
  (image: number) =>
  ({ qualities }: Past) =>
    (qualities.get(image) ?? NaN) < 0.5;
const isBroken = ({ tip: { broken: is } }: Past) => is;

/* Expected shares are Bayes' rule, by hand: chances of breaking at each approach, times those of having looked so. */
describe('what a tip may have been through unnoticed', () => {
  it('makes a take that was let pass bad as often as it broke and the review missed it', () => {
    const all = pasts(broken(), tip([0]));
    expectShare(all, 0.06 / (0.06 + 0.63), isBad(0));
    expectShare(all, 0.06 / (0.06 + 0.63), isBroken);
  });

  it('makes takes bad from the one on with which it broke', () => {
    const all = pasts(broken(), tip([0, 1]));
    const [first, second, never] = [0.3 * 0.2 * 0.2, 0.7 * 0.9 * 0.3 * 0.2, 0.7 * 0.9 * 0.7 * 0.9];
    expectShare(all, first / (first + second + never), isBad(0));
    expectShare(all, (first + second) / (first + second + never), isBad(1));
  });

  it('makes a take bad as often as it breaks where nobody reviews', () => {
    expectShare(pasts(broken({ review: { by: 'nobody' } }), tip([0])), 0.3, isBad(0));
  });

  it('has broken it the more likely where its last take was flagged', () => {
    const all = pasts(broken(), tip([0], { flaggedImage: 1, judgement: 'flagged by an image' }));
    const [first, second, never] = [0.3 * 0.2 * 0.8, 0.7 * 0.9 * 0.3 * 0.8, 0.7 * 0.9 * 0.7 * 0.1];
    expectShare(all, (first + second) / (first + second + never), isBroken);
    for (const { qualities } of nonEmpty(all)) expect([...qualities.keys()]).toEqual([0]);
  });

  it('says nothing of a flag that no review gives', () => {
    const blind = broken(review({ sensitivity: 0, falseAlarm: 0 }));
    const all = pasts(blind, tip([0], { flaggedImage: 1, judgement: 'flagged by an image' }));
    expectShare(all, 1 - 0.7 * 0.7, isBroken);
    expect(all.some(({ isGuess }) => isGuess)).toBe(false);
  });

  it('has broken it the more likely where it failed a check', () => {
    const all = pasts(broken({ ...review(), ...check() }), tip([0], { judgement: 'failed a check' }));
    expectShare(all, 0.048 / (0.048 + 0.063), isBroken);
    const sound = pasts(broken({ ...review(), ...check() }), tip([0]));
    expectShare(sound, 0.06 / 0.69, isBroken);
  });

  it('counts its age from all approaches but those that are played again', () => {
    const life = { distribution: 'weibull', shape: 3, scale: 6 };
    const model = plainModel({
      regions: 3,
      passes: [{}, {}],
      hazards: [{ cause: 'breakage', per: 'approach', life }],
      noticing: { ...review(), ...check() },
    });
    // Four approaches by the check and its image, one to the next region.
    const known = tip([0, 2], { isChecked: true, use: { images: 9, path: 1, hours: 1, approaches: 5 } });
    const breaks = 1 - Math.exp((4 ** 3 - 5 ** 3) / 6 ** 3);
    expectShare(pasts(model, known), (breaks * 0.2) / (breaks * 0.2 + (1 - breaks) * 0.9), isBad(2));
    // One that is new, as far as is known: its only approach is among those that are played.
    const young = 1 - Math.exp(-(1 ** 3) / 6 ** 3);
    const unchecked = tip([0], { use: { images: 1, path: 1, hours: 1, approaches: 1 } });
    expectShare(pasts(model, unchecked), (young * 0.2) / (young * 0.2 + (1 - young) * 0.9), isBad(0));
  });

  it.each([
    ['distance', 'mm', { path: 5.1 }],
    ['image', 'images', { images: 6 }],
    ['hour', 'h', { hours: 5 + 1 / 60 }],
    ['approach', 'approaches', { approaches: 6 }],
  ] as const)(
    'counts its age in the unit of each hazard from what is said of that unit alone (%s)',
    (per, unit, said) => {
      // A scan takes a minute, and 12 µm of path.
      const life = { distribution: 'weibull', shape: 3, scale: `9 ${unit}` };
      const model = plainModel({ regions: 3, hazards: [{ cause: 'breakage', per, life }] });
      const one = tip([0], { use: { images: 1, path: 0.012, hours: 1 / 60, approaches: 1, ...said } });
      const [{ tip: aged }] = pasts(model, one, 1);
      expect(aged.use).toEqual(one.use);
      const [amount] = Object.values(said);
      expect(aged.hazards[0].exposure).toBeCloseTo(amount, 12);
    },
  );

  it('has the apex of its whole path, also where the images say less', () => {
    const worn = {
      hazards: [],
      radius: { nominal: '8 nm', geometricSd: 1 },
      blunting: { wear: { coefficient: '10 nm^3/(nN mm)', geometricSd: 1 } },
    };
    const model = plainModel({ regions: 3, tips: { tip: worn }, passes: [{ load: '2 nN' }] });
    const radius = (path: number) =>
      pasts(model, tip([0], { use: { images: 1, path, hours: 1, approaches: 1 } }), 1)[0].tip.radius;
    const { blunting } = model.kinds[0];
    const grown = (path: number) => Math.cbrt(8 ** 3 + (blunting?.growth(10, 2, path) ?? NaN));
    expect(radius(62)).toBeCloseTo(grown(62), 9);
    expect(radius(62_000)).toBeCloseTo(grown(62_000), 9);
    expect(radius(62_000)).toBeGreaterThan(2 * radius(62));
  });

  it('has what people count as they count it', () => {
    const known = tip([0], { flaggedImage: 1, judgement: 'flagged by an image' });
    for (const { tip: state } of nonEmpty(pasts(broken(), known, 20))) {
      expect(state.use).toEqual(known.use);
      expect(state.scansSinceCheck).toBe(2);
    }
  });

  it('does not hold what a watched scan would have shown', () => {
    const watched = (watch: Raw) =>
      broken(
        { review: { by: 'nobody' }, watch: { by: 'automatic', sensitivity: 1, ...watch } },
        after(0.5, { cause: 'breakage' }),
      );
    const isGuess = (watch: Raw) => pasts(watched(watch), tip([0]), 1)[0].isGuess;
    // The scan takes a minute, and the tip breaks after half of it.
    expect(isGuess({ delay: '10 s' })).toBe(true);
    expect(isGuess({ delay: '40 s' })).toBe(false);
    expect(isGuess({ delay: '10 s', sensitivity: 0.5 })).toBe(false);
    expect(isGuess({ delay: '10 s', causes: ['fouling'] })).toBe(false);
  });

  it('may be a mark that cleared before anyone saw it', () => {
    const life = { distribution: 'lognormal', median: 0.25, geometricSd: 1.0001 };
    const clearing = (clears: number, delay: string) =>
      broken(
        { review: { by: 'nobody' }, watch: { by: 'automatic', sensitivity: 1, delay } },
        { cause: 'fouling', per: 'image', life, quality: 0.5, clears },
      );
    const guesses = (clears: number, delay: string) =>
      pasts(clearing(clears, delay), tip([0]), 40).filter(({ isGuess }) => isGuess).length;
    expect(guesses(0.01, '20 s')).toBe(0);
    expect(guesses(1e6, '20 s')).toBe(40);
  });
});

describe('a tip that passed a check', () => {
  const fine = (noticing: Raw) =>
    plainModel({
      regions: 2,
      passes: [{ neededResolution: '10 nm', dip: '1 nm', accept: 0.8 }],
      noticing: { ...review(), ...noticing },
    });
  const passed = (radius: number | null): KnownTip => tip([], { isChecked: true, radius });

  it('was not one that every check finds', () => {
    const isGuess = (radius: number, judges: Raw) => pasts(fine(check(judges)), passed(radius), 1)[0].isGuess;
    expect(isGuess(500, { sensitivity: 1, falseAlarm: 0 })).toBe(true);
    expect(isGuess(500, { sensitivity: 0.9, falseAlarm: 0 })).toBe(false);
    expect(isGuess(2, { sensitivity: 1, falseAlarm: 0 })).toBe(false);
    // Where there is no check any more, nothing is asked.
    expect(pasts(fine({}), passed(500), 1)[0].isGuess).toBe(false);
  });

  it('does not fail the next one where no check ever fails a good tip', () => {
    const failed: KnownTip = { ...passed(2), judgement: 'failed a check' };
    const isGuess = (falseAlarm: number) => pasts(fine(check({ sensitivity: 0.9, falseAlarm })), failed, 1)[0].isGuess;
    expect(isGuess(0)).toBe(true);
    expect(isGuess(0.1)).toBe(false);
  });

  it('is looked at for an image that its kind is for', () => {
    const blunt = { radius: { nominal: '500 nm', geometricSd: 1 }, hazards: [] };
    const model = plainModel({
      regions: 2,
      tips: { sharp: { radius: { nominal: '2 nm', geometricSd: 1 }, hazards: [] }, blunt },
      passes: [
        { tip: 'sharp', neededResolution: '10 nm', dip: '1 nm', accept: 0.8 },
        { tip: 'blunt', accept: 0.8 },
      ],
      noticing: { ...review(), ...check({ sensitivity: 1, falseAlarm: 0 }) },
    });
    expect(pasts(model, { ...passed(500), kind: 1 }, 1)[0].isGuess).toBe(false);
    expect(pasts(model, passed(500), 1)[0].isGuess).toBe(true);
  });

  it('has an apex radius that may have been read so', () => {
    const radii = pasts(fine(check({ radiusError: 0.1 })), passed(2)).map(({ tip: { radius } }) => 2 / radius - 1);
    const mean = radii.reduce((sum, error) => sum + error, 0) / radii.length;
    const spread = Math.sqrt(radii.reduce((sum, error) => sum + error * error, 0) / radii.length);
    expect(Math.abs(mean)).toBeLessThan((5.5 * 0.1) / Math.sqrt(PASTS));
    expect(Math.abs(spread - 0.1)).toBeLessThan((5.5 * 0.1) / Math.sqrt(2 * PASTS));
    expect(pasts(fine(check({ radiusError: 0 })), passed(3), 1)[0].tip.radius).toBe(3);
  });
});

describe('where no past fits what was seen', () => {
  it('the tip is taken as sound, and so are its images, and it is said that this is a guess', () => {
    const sure = broken(review({ sensitivity: 1, falseAlarm: 0 }), {
      ...BREAKS,
      life: { distribution: 'probability', perUnit: 1 },
    });
    const known = tip([0, 1]);
    const [{ isGuess, qualities, tip: state }] = pasts(sure, known, 1);
    expect(isGuess).toBe(true);
    expect([...qualities]).toEqual([
      [0, 1],
      [1, 1],
    ]);
    expect(state).toMatchObject({ broken: false, spoiled: null, use: known.use, scansSinceCheck: 2 });
  });
});
