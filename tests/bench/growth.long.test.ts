import { expect, it } from 'vitest';
import { plainOf } from './growth.js';
import { LuckTable } from '../../src/chance/luck.js';
import { runCampaign } from '../../src/campaign/campaign.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import { modelOf, modelsOf } from '../support/run.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * Work is counted in what a recorder is told of: steps, what happens to tips, changes of the tip. Each count is of 100 000
 * images, whose mean has a standard error of 0.31 % (from the spread over replications), so that two counts differ by 3 %
 * through chance less than once in 1e10 seeds; the seeds are fixed. Anything that grew faster than in proportion, were it
 * by a logarithm, would double what an image costs from 100 images to 10 000.
 */
const TOLERANCE = 0.03;

/** How much is told of so many replications of one strategy. */
function workOf(model: CampaignModel, replications: number, first = 1): number {
  const table = new LuckTable(model.settings.seed);
  let work = 0;
  const told = () => {
    work += 1;
  };
  for (let replication = first; replication < first + replications; replication += 1)
    runCampaign(model, table.replication(replication), { step: told, event: told, tip: told });
  return work;
}

function expectAlike(work: number, expected: number): void {
  expect(Math.abs(work / expected - 1)).toBeLessThan(TOLERANCE);
}

it.each([1000, 10_000])('an image costs as much work in a plan of %i images as in one of 100', (images) => {
  const replications = 100_000 / images;
  expectAlike(workOf(modelOf(plainOf(images)), replications), workOf(modelOf(plainOf(100)), 1000));
});

it('a late replication costs as much work as an early one', () => {
  const model = modelOf(plainOf(100));
  expectAlike(workOf(model, 1000, 1_000_001), workOf(model, 1000));
});

it('a strategy costs the same work to the last step whatever others are compared with it', () => {
  const [alone] = modelsOf(plainOf(100)).values();
  const many = [...modelsOf(plainOf(100, 8)).values()];
  expect(many).toHaveLength(8);
  for (const model of nonEmpty(many)) expect(workOf(model, 50)).toBe(workOf(alone, 50));
});
