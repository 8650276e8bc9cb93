import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { runCampaign } from '../../src/campaign/campaign.js';
import { type CampaignModel, compileModel } from '../../src/campaign/model.js';
import type { RecordedStep } from '../../src/campaign/recorder.js';
import { LuckTable } from '../../src/chance/luck.js';
import { WEEK } from '../../src/kernel/hours.js';
import { loadScenario } from '../../src/scenario/load.js';
import { average, variance } from '../support/chance.js';
import { StepLog } from '../support/step-log.js';

/*
 * Facts of the trade (common practice, no source): exchanging a probe and finding the place again by hand takes an ordinary
 * operator about 10 minutes in air and several hours in ultra-high vacuum; an offset to a neighbouring tip takes seconds.
 * The bands: 8 to 13 minutes is what one would still call about ten; 2 to 8 hours is what one would call several; below a
 * minute one counts in seconds. Each mean lies at least ten of its standard errors inside its band, which is asserted, so that
 * the file fails by chance less than once in a million seeds.
 */

/** The scenario of a file, always booked and attended, with a new tip for each image, so that there is much to average over. */
function modelOfFile(file: string, strategy: string): CampaignModel {
  const loaded = loadScenario(readFileSync(new URL(`../../scenarios/${file}`, import.meta.url), 'utf8'));
  const found = loaded.ok ? loaded.scenario.strategies.find(({ name }) => name === strategy) : undefined;
  if (found === undefined) throw new Error(`${file} has no strategy ${strategy}`);
  const { settings, workflow } = found;
  const always = [{ from: 0, to: WEEK }];
  return compileModel(workflow, {
    ...settings,
    bookings: { unattended: 'none', hours: always },
    operators: { ...settings.operators, hours: always },
    rules: { ...settings.rules, after: { unit: 'image', amount: 1 } },
    stock: { tips: {}, specimens: { atHand: 1000 } },
  });
}

/** Seconds from a retract to the place found again, one number a change of tip within a region. */
function changes(model: CampaignModel, replications: number, by: string, last: string): number[] {
  const table = new LuckTable('exchange times');
  return Array.from({ length: replications }, (_, replication) => {
    const log = new StepLog();
    runCampaign(model, table.replication(replication), log);
    const between: RecordedStep[][] = [[]];
    for (const step of log.steps)
      if (step.step === 'scan') between.push([]);
      else between[between.length - 1].push(step);
    return between
      .slice(1)
      .filter((steps) => steps.some(({ step }) => step === by) && !steps.some(({ step }) => step === 'locate'))
      .map((steps) => {
        const from = steps.findIndex(({ step }) => step === 'retract');
        const to = steps.findLastIndex(({ step }) => step === last);
        return steps
          .slice(from, to + 1)
          .filter(({ step }) => step !== 'wait')
          .reduce((sum, { start, end }) => sum + (end - start) / 1e6, 0);
      });
  }).flat();
}

function expectBand(seconds: readonly number[], low: number, high: number): void {
  const error = Math.sqrt(variance(seconds) / seconds.length);
  expect(average(seconds) - 10 * error).toBeGreaterThan(low);
  expect(average(seconds) + 10 * error).toBeLessThan(high);
}

describe('exchanges as practitioners know them', () => {
  const air = (strategy: string) => modelOfFile('starters/ambient.yaml', strategy);

  it('take about 10 minutes by hand in air, with the place found again', () => {
    expectBand(changes(air('swap by hand'), 60, 'exchange', 'relocate'), 8 * 60, 13 * 60);
  });

  it('take several hours in ultra-high vacuum', () => {
    expectBand(
      changes(modelOfFile('vacuum-terraces.yaml', 'swap (at once)'), 30, 'exchange', 'relocate'),
      2 * 3600,
      8 * 3600,
    );
  });

  it('are offsets of seconds on a chip of tips', () => {
    const table = new LuckTable('offsets');
    for (const model of [air('hop'), modelOfFile('vacuum-terraces.yaml', 'hop (at once)')]) {
      const offsets = Array.from({ length: 20 }, (_, replication) => {
        const log = new StepLog();
        runCampaign(model, table.replication(replication), log);
        return log.steps.filter(({ step }) => step === 'offset').map(({ start, end }) => (end - start) / 1e6);
      }).flat();
      expectBand(offsets, 1, 60);
    }
  });
});
