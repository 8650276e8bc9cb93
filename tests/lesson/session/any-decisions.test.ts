import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ACTIVITIES } from '../../../src/campaign/activities.js';
import { runCampaign } from '../../../src/campaign/campaign.js';
import type { CampaignModel } from '../../../src/campaign/model.js';
import type { Luck } from '../../../src/chance/luck.js';
import { LuckTable } from '../../../src/chance/luck.js';
import { CHOICES, type Choice, type Decision, offeredAt } from '../../../src/lesson/session/choices.js';
import { accountOf } from '../../../src/lesson/session/account.js';
import { type Session, playSession } from '../../../src/lesson/session/play.js';
import type { Point } from '../../../src/lesson/session/player.js';
import { chance, modelIfSound, scenario } from '../../support/any-campaign.js';
import type { Raw } from '../../support/run.js';
import { laidOver } from '../../support/scene.js';
import { nonEmpty, perhapsNone } from '../../support/non-empty.js';

const CASES = 150;
const LUCK = new LuckTable('any session');
/** Much is flagged, so that much is to be decided. */
const DOUBTED: Raw = { noticing: { review: { by: 'automatic', sensitivity: 0.9, falseAlarm: 0.3 } } };
const MODELS: readonly CampaignModel[] = fc
  .sample(scenario, { seed: 17, numRuns: CASES })
  .map((over, i) => modelIfSound(laidOver(over, i % 3 === 0 ? {} : DOUBTED)))
  .filter((model) => model !== null);

/** Plays on until nothing is asked any more. */
function playedWith(model: CampaignModel, luck: Luck, decide: (question: Point, offered: readonly Choice[]) => Choice) {
  const decisions: Decision[] = [];
  for (;;) {
    const session = playSession('one', model, luck, decisions);
    const { question, outcome } = session;
    if (question === null && outcome !== null) return { session, outcome, decisions };
    if (question === null) throw new Error('It neither asks nor ends.');
    decisions.push({ point: question.point, choice: decide(question, offeredAt(question, session.offered)) });
  }
}

function tallied({ steps }: Session, instruments: number): readonly (readonly number[])[] {
  return Array.from({ length: instruments }, (_, instrument) =>
    ACTIVITIES.map((activity) =>
      steps
        .filter((step) => step.instrument === instrument)
        .filter(
          ({ scan, activity: what }) => (scan === null || scan.lostAt === null ? what : 'scanning lost') === activity,
        )
        .reduce((sum, { start, end }) => sum + Math.round((end - start) * 1e6), 0),
    ),
  );
}

describe('a session', () => {
  it('is the usual campaign, to the byte, for whoever decides every time as the rules would', () => {
    let asked = 0;
    MODELS.forEach((model, i) => {
      const luck = LUCK.replication(i);
      const { outcome, decisions } = playedWith(model, luck, ({ ruled }) => ruled);
      asked += decisions.length;
      expect(JSON.stringify(outcome)).toBe(JSON.stringify(runCampaign(model, luck)));
    });
    expect(asked).toBeGreaterThan(MODELS.length);
  });
});

describe('a session with any decisions', () => {
  /** After so many decisions it is decided as the rules would, so that every session ends. */
  const MOST = 25;
  const played = MODELS.map((model, i) => {
    const [choices] = fc.sample(fc.array(fc.constantFrom(...CHOICES), { minLength: MOST, maxLength: MOST }), {
      seed: i,
      numRuns: 1,
    });
    let count = 0;
    return {
      model,
      ...playedWith(model, LUCK.replication(i), ({ ruled }, offered) => {
        const choice = choices.at(count) ?? ruled;
        count += 1;
        return offered.includes(choice) ? choice : ruled;
      }),
    };
  });

  it('splits all of its time, to the microsecond, and shows it as the outcome counts it', () => {
    for (const { model, outcome, session } of nonEmpty(played)) {
      expect(outcome.split.map((row) => row.reduce((sum, each) => sum + each, 0))).toEqual(outcome.elapsed);
      expect(Math.min(...outcome.split.flat())).toBeGreaterThanOrEqual(0);
      if (model.allocationEnd === null) expect(tallied(session, model.settings.instruments)).toEqual(outcome.split);
    }
  });

  it('plans as many images as are good, undetected bad, given up and missing, and uses every tip once', () => {
    for (const { model, outcome } of nonEmpty(played)) {
      const { good, undetectedBad, givenUp, missing, tipRecords, tips } = outcome;
      expect(good + undetectedBad + givenUp + missing).toBe(model.images.length);
      if (outcome.isFinished) expect(missing).toBe(0);
      const names = tipRecords.map((tip) => `${tip.instrument} ${tip.kind} ${tip.number}`);
      expect(new Set(names).size).toBe(names.length);
      expect(names.length).toBe(tips);
    }
  });

  it('ends with the booked time: what runs then is finished, nothing begins later, and its account is the cut one', () => {
    let cut = 0;
    for (const { model, outcome, session } of nonEmpty(played)) {
      const { bookedUntil, steps, end } = session;
      if (bookedUntil === null) continue;
      expect(perhapsNone(steps).every(({ start }) => start < bookedUntil)).toBe(true);
      expect(perhapsNone(steps).every(({ scan, end: ended }) => scan === null || ended <= bookedUntil)).toBe(true);
      expect(perhapsNone(session.points).every(({ time }) => time < bookedUntil)).toBe(true);
      const { good, undetectedBad, unkept } = accountOf('', outcome, session);
      expect(good + undetectedBad + unkept).toBe(model.images.length);
      expect([good, undetectedBad]).toEqual([outcome.cut?.good, outcome.cut?.undetectedBad]);
      if (end < outcome.totalTime) cut += 1;
    }
    expect(cut).toBeGreaterThan(0);
  });

  it('gives no image more takes than it may have', () => {
    for (const { model, outcome } of nonEmpty(played)) {
      if (outcome.specimens > 1) continue;
      expect(Math.max(...outcome.takesOf)).toBeLessThanOrEqual(model.settings.noticing.attempts);
    }
  });

  it('is the same up to a decision whatever is decided there', () => {
    for (const [i, { model, decisions, session }] of nonEmpty(played.entries())) {
      const last = decisions.at(-1);
      if (last === undefined) continue;
      const before = playSession('one', model, LUCK.replication(i), decisions.slice(0, -1));
      expect(before.question).toMatchObject({ point: last.point, choice: null });
      expect(session.points.slice(0, last.point)).toEqual(before.points.slice(0, -1));
      const told = before.steps.map(({ start, end, words, instrument }) => ({ start, end, words, instrument }));
      const again = session.steps.slice(0, told.length);
      expect(again.map(({ start, end, words, instrument }) => ({ start, end, words, instrument }))).toEqual(told);
    }
  });

  it('is often one in which somebody decided otherwise', () => {
    expect(played.length).toBeGreaterThan(CASES / 3);
    const otherwise = played.filter(({ session }) =>
      session.points.some(({ doubt, choice, ruled }) => doubt !== null && choice !== ruled),
    );
    expect(otherwise.length).toBeGreaterThan(played.length / 4);
  });
});

describe('deciding without a doubt', () => {
  it('is possible before every take, and keeps the books too', () => {
    fc.assert(
      fc.property(
        fc.nat({ max: MODELS.length - 1 }),
        chance(0.999),
        fc.constantFrom(...CHOICES),
        (at, share, choice) => {
          const model = MODELS[at];
          const luck = LUCK.replication(at);
          const { points, offered } = playSession('one', model, luck, []);
          if (points.length === 0) return;
          const point = Math.floor(share * points.length);
          if (!offeredAt(points[point], offered).includes(choice)) return;
          const { points: changed } = playSession('one', model, luck, [{ point, choice }]);
          expect(changed.slice(0, point)).toEqual(points.slice(0, point));
          expect(changed[point]).toEqual({ ...points[point], choice });
        },
      ),
      { seed: 3, numRuns: 100 },
    );
  });
});
