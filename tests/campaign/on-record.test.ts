import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { campaignAt, CampaignRunner, continueCampaign, runCampaign } from '../../src/campaign/campaign.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import { observed } from '../../src/execution/midway/observed.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import { posteriorDraw } from '../../src/execution/midway/posterior-draw.js';
import { LuckTable } from '../../src/chance/luck.js';
import { Chronicle } from '../../src/analysis/timeline.js';
import { sceneModel } from '../support/scene.js';

const LUCK = new LuckTable('on record');
const OTHER_LUCK = new LuckTable('on record, and what comes');
const REPLICATIONS = [0, 1, 2];

/** Forty scenarios of all kinds, drawn once from `any-campaign.ts` and written down, so that they stay what they are. */
const SCENARIOS = z
  .array(z.record(z.string(), z.unknown()))
  .parse(JSON.parse(readFileSync(new URL('on-record.json', import.meta.url), 'utf8')));

/** The first digits of a digest of everything that a value holds. */
function digest(value: unknown): string {
  const text = JSON.stringify(value, (_, part: unknown) => (part instanceof Map ? [...part] : part));
  return createHash('sha256').update(text).digest('hex').slice(0, 12);
}

function told({ totalTime, tips, takes, yield: gain, ...rest }: Outcome): string {
  return `${totalTime} s, ${tips} tips, ${takes} takes, yield ${gain}, ${digest({ totalTime, tips, takes, gain, rest })}`;
}

/** A campaign to its end; all that is told of it; and from four tenths of its way on, by all that is so and by what is known. */
function played(model: CampaignModel, replication: number): readonly string[] {
  const luck = () => LUCK.replication(replication);
  const chronicle = new Chronicle('one', model);
  const whole = runCampaign(model, luck(), chronicle);
  const state = campaignAt(model, luck(), model.start + Math.floor(0.4 * Math.min(...whole.elapsed)));
  const lines = [`whole: ${told(whole)}`, `log: ${digest([chronicle.timeline(), chronicle.log()])}`];
  if (state === null) return lines;
  const next = OTHER_LUCK.replication(replication);
  const guess = posteriorDraw(model, observed(model, state), next, () => 1);
  return [
    ...lines,
    `on: ${told(continueCampaign(model, luck(), state))}`,
    `from what is known: ${digest(guess)}, ${told(continueCampaign(model, next, guess.state))}`,
  ];
}

/*
 * Known bytes, made by this program itself: they say nothing of what is right, which the other tests do. They hold "same seed,
 * same bytes" on every machine that runs them, and show every change of results, which belongs into CHANGELOG.md;
 * `npx vitest run tests/campaign/on-record.test.ts -u` writes them anew.
 */
describe('campaigns on record', () => {
  it.each(SCENARIOS.map((over, i) => ({ number: i + 1, over })))(
    'come out as they did, to the byte: scenario $number',
    ({ over }) => {
      const model = sceneModel(over);
      const lines = REPLICATIONS.flatMap((replication) => [
        `replication ${replication}`,
        ...played(model, replication),
      ]);
      expect(lines.join('\n')).toMatchSnapshot();
    },
  );
});

const figure = z.tuple([z.number(), z.number()]);
const MEANS_SCHEMA = z.object({
  ...{ totalTime: figure, instrumentTime: figure, operatorTime: figure },
  ...{ yield: figure, tips: figure, takes: figure },
});

/**
 * Mean and standard error of the same forty over 2000 replications (seed "means on record"), as they were before times and lifetimes
 * were read from tables: by the inverse functions themselves, and other draws for whether a step succeeds.
 */
const MEANS = z
  .array(MEANS_SCHEMA)
  .parse(JSON.parse(readFileSync(new URL('means-on-record.json', import.meta.url), 'utf8')));

describe('campaigns whose means are on record', () => {
  // 5.9 standard errors: missed by chance once in a million by any of 240 means together (a little less, as they hang together).
  const MOST = 5.9;
  const COUNT = 300;

  it('have the means that they had with exact inverse functions', () => {
    const table = new LuckTable('means on record, other draws');
    const measures = MEANS_SCHEMA.keyof().options;
    const missed = SCENARIOS.flatMap((over, i) => {
      const runner = new CampaignRunner(sceneModel(over));
      const outcomes = Array.from({ length: COUNT }, (_, replication) => {
        const outcome = runner.run(table.replication(replication));
        return measures.map((measure) => outcome[measure]);
      });
      return measures.flatMap((measure, place) => {
        const values = outcomes.map((row) => row[place]);
        const mean = values.reduce((sum, value) => sum + value, 0) / COUNT;
        const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (COUNT - 1) / COUNT;
        const [before, error] = MEANS[i][measure];
        const allowed = MOST * Math.sqrt(square + error * error) + 1e-7 * Math.abs(before);
        return Math.abs(mean - before) > allowed ? [{ scenario: i + 1, measure, mean, before, allowed }] : [];
      });
    });
    expect(missed).toEqual([]);
  });
});

describe('a runner of many campaigns', () => {
  it('gives what a campaign by itself gives, whatever it ran before', () => {
    for (const over of SCENARIOS) {
      const model = sceneModel(over);
      const runner = new CampaignRunner(model);
      for (const replication of [3, 1, 1]) {
        const alone = digest(runCampaign(model, LUCK.replication(replication)));
        expect(digest(runner.run(LUCK.replication(replication)))).toBe(alone);
      }
    }
  });
});
