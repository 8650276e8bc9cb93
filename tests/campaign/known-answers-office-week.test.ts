import { describe, expect, it } from 'vitest';
import { runCampaign } from '../../src/campaign/campaign.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import { LuckTable } from '../../src/chance/luck.js';
import { evenKind, type Plain, plainModel } from '../support/scene.js';
import { diaryTime, StepLog } from '../support/step-log.js';

/*
 * Known answer 7, exact: every start time of an office week, worked out by hand from the model's rules with a pencil.
 * Minutes: set-up 20, warm-up 30, locate 10, approach 5, retract 5, exchange 15, align 5, resonance 5, relocate 10, settle 5.
 */
const MINUTES = {
  setUp: 20,
  warmUp: 30,
  locate: 10,
  approach: 5,
  retract: 5,
  exchange: 15,
  align: 5,
  resonance: 5,
  relocate: 10,
  settle: 5,
};
const inSeconds = (minutes: Readonly<Record<string, number>>) =>
  Object.fromEntries(Object.entries(minutes).map(([step, time]) => [step, time * 60]));
const scanOf = (tip: string, minutes: number) => ({ tip, lines: minutes * 60 });
const office = ({ start, review, ...plain }: Plain & { start: string; review: number }): CampaignModel =>
  plainModel({
    steps: inSeconds(MINUTES),
    tips: { sharp: evenKind(), coated: evenKind() },
    ...plain,
    noticing: { review: { by: 'automatic', time: `${review} min`, sensitivity: 1, falseAlarm: 0 } },
    bookings: { hours: 'Mo-Fr 09:00-17:00', start, unattended: 'none' },
    operators: { hours: 'Mo-Fr 09:00-17:00' },
  });

function runLogged(model: CampaignModel) {
  const log = new StepLog();
  const outcome = runCampaign(model, new LuckTable('known answer 7').replication(0), log);
  return { log, outcome };
}

const lines = (text: string) =>
  text
    .trim()
    .split('\n')
    .map((line) => line.trim());

describe('7. an office week with fixed times', () => {
  it('starts every step of a region-first plan when the pencil does', () => {
    const { log, outcome } = runLogged(
      office({ regions: 3, passes: [scanOf('sharp', 60), scanOf('coated', 90)], start: 'Mo 09:00', review: 5 }),
    );
    expect(log.diary()).toEqual(
      lines(`
        Mo 09:00 setUp
        Mo 09:20 warmUp
        Mo 09:50 locate
        Mo 10:00 approach
        Mo 10:05 scan region 1 pass 1
        Mo 11:05 review
        Mo 11:10 retract
        Mo 11:15 exchange
        Mo 11:30 align
        Mo 11:35 resonance
        Mo 11:40 approach
        Mo 11:45 relocate
        Mo 11:55 settle
        Mo 12:00 scan region 1 pass 2
        Mo 13:30 review
        Mo 13:35 retract
        Mo 13:40 exchange
        Mo 13:55 align
        Mo 14:00 resonance
        Mo 14:05 locate
        Mo 14:15 approach
        Mo 14:20 settle
        Mo 14:25 scan region 2 pass 1
        Mo 15:25 review
        Mo 15:30 retract
        Mo 15:35 exchange
        Mo 15:50 align
        Mo 15:55 resonance
        Mo 16:00 approach
        Mo 16:05 relocate
        Mo 16:15 settle
        Tu 09:00 warmUp
        Tu 09:30 approach
        Tu 09:35 relocate
        Tu 09:45 scan region 2 pass 2
        Tu 11:15 review
        Tu 11:20 retract
        Tu 11:25 exchange
        Tu 11:40 align
        Tu 11:45 resonance
        Tu 11:50 locate
        Tu 12:00 approach
        Tu 12:05 settle
        Tu 12:10 scan region 3 pass 1
        Tu 13:10 review
        Tu 13:15 retract
        Tu 13:20 exchange
        Tu 13:35 align
        Tu 13:40 resonance
        Tu 13:45 approach
        Tu 13:50 relocate
        Tu 14:00 settle
        Tu 14:05 scan region 3 pass 2
        Tu 15:35 review
      `),
    );
    // From Monday 09:00 to Tuesday 15:40; two tips, each parked and put on again.
    expect(outcome).toMatchObject({ totalTime: 30 * 3600 + 40 * 60, instrumentTime: 14 * 3600 + 40 * 60, tips: 2 });
    expect(outcome.overrun).toBe(0);
  });

  it('starts every step of a tip-first plan when the pencil does, over a week-end', () => {
    const { log, outcome } = runLogged(
      office({
        regions: 3,
        order: 'tip-first',
        passes: [scanOf('sharp', 60), scanOf('coated', 90)],
        start: 'Fr 09:00',
        review: 5,
      }),
    );
    expect(log.diary()).toEqual(
      lines(`
        Fr 09:00 setUp
        Fr 09:20 warmUp
        Fr 09:50 locate
        Fr 10:00 approach
        Fr 10:05 scan region 1 pass 1
        Fr 11:05 review
        Fr 11:10 retract
        Fr 11:15 locate
        Fr 11:25 approach
        Fr 11:30 scan region 2 pass 1
        Fr 12:30 review
        Fr 12:35 retract
        Fr 12:40 locate
        Fr 12:50 approach
        Fr 12:55 scan region 3 pass 1
        Fr 13:55 review
        Fr 14:00 retract
        Fr 14:05 exchange
        Fr 14:20 align
        Fr 14:25 resonance
        Fr 14:30 approach
        Fr 14:35 relocate
        Fr 14:45 settle
        Fr 14:50 scan region 1 pass 2
        Fr 16:20 review
        Fr 16:25 retract
        Fr 16:30 approach
        Fr 16:35 relocate
        2 Mo 09:00 warmUp
        2 Mo 09:30 approach
        2 Mo 09:35 relocate
        2 Mo 09:45 scan region 2 pass 2
        2 Mo 11:15 review
        2 Mo 11:20 retract
        2 Mo 11:25 approach
        2 Mo 11:30 relocate
        2 Mo 11:40 scan region 3 pass 2
        2 Mo 13:10 review
      `),
    );
    expect(outcome).toMatchObject({ totalTime: (3 * 24 + 4) * 3600 + 15 * 60, instrumentTime: 12 * 3600 + 15 * 60 });
  });

  it('finishes a step that runs over the closing, and goes on in the morning with what was pending, without its retract', () => {
    const { log, outcome } = runLogged(
      office({ regions: 2, passes: [scanOf('sharp', 60), scanOf('coated', 150)], start: 'Mo 09:00', review: 10 }),
    );
    expect(log.diary().slice(24)).toEqual(
      lines(`
        Mo 16:45 retract
        Mo 16:50 exchange
        Tu 09:00 warmUp
        Tu 09:30 align
        Tu 09:35 resonance
        Tu 09:40 approach
        Tu 09:45 relocate
        Tu 09:55 settle
        Tu 10:00 scan region 2 pass 2
        Tu 12:30 review
      `),
    );
    expect(outcome.overrun).toBe(5 * 60);
    const [wait] = log.steps.filter(({ step }) => step === 'wait');
    expect(wait).toMatchObject({ activity: 'waiting for a booking' });
    expect([wait.start, wait.end].map(diaryTime)).toEqual(['Mo 17:05', 'Tu 09:00']);
  });

  it('hops over a kind change and a first visit, the specimen prepared at the bench before the start', () => {
    const model = plainModel({
      workflow: 'hop',
      regions: 2,
      passes: [scanOf('sharp', 60), scanOf('coated', 120)],
      tips: { sharp: evenKind(), coated: evenKind() },
      steps: inSeconds({
        prepare: 60,
        setUp: 20,
        warmUp: 30,
        locate: 10,
        retract: 1,
        offset: 2,
        coarseMove: 3,
        approach: 4,
        resonance: 5,
        settle: 6,
        register: 7,
        chipExchange: 999,
      }),
      noticing: { review: { by: 'automatic', time: '5 min', sensitivity: 1, falseAlarm: 0 } },
      bookings: { hours: 'Mo-Fr 09:00-17:00', unattended: 'none' },
      operators: { hours: 'Mo-Fr 07:30-17:00' },
    });
    const { log, outcome } = runLogged(model);
    expect(log.diary()).toEqual(
      lines(`
        Mo 09:00 setUp
        Mo 09:20 warmUp
        Mo 09:50 locate
        Mo 10:00 approach
        Mo 10:04 scan region 1 pass 1
        Mo 11:04 review
        Mo 11:09 retract
        Mo 11:10 offset
        Mo 11:12 coarseMove
        Mo 11:15 approach
        Mo 11:19 resonance
        Mo 11:24 settle
        Mo 11:30 register
        Mo 11:37 scan region 1 pass 2
        Mo 13:37 review
        Mo 13:42 retract
        Mo 13:43 offset
        Mo 13:45 coarseMove
        Mo 13:48 locate
        Mo 13:58 approach
        Mo 14:02 resonance
        Mo 14:07 settle
        Mo 14:13 scan region 2 pass 1
        Mo 15:13 review
        Mo 15:18 retract
        Mo 15:19 offset
        Mo 15:21 coarseMove
        Mo 15:24 approach
        Mo 15:28 resonance
        Mo 15:33 settle
        Mo 15:39 register
        Tu 09:00 warmUp
        Tu 09:30 approach
        Tu 09:34 register
        Tu 09:41 scan region 2 pass 2
        Tu 11:41 review
      `),
    );
    expect(outcome).toMatchObject({ tips: 2, chips: 1, specimens: 1, benchTime: 3600 });
    // From Monday nine to five, and from Tuesday nine to the end of the last review.
    expect(outcome.instrumentTime).toBe(60 * (8 * 60 + 166));
  });
});
