import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { z } from 'zod';
import { campaignAt, continueCampaign, runCampaign } from '../../src/campaign/campaign.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import { observed } from '../../src/campaign/observed.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import { presumed } from '../../src/campaign/presumed.js';
import { LuckTable } from '../../src/chance/luck.js';
import { Chronicle } from '../../src/study/timeline.js';
import { modelOf } from '../support/run.js';
import { laidOver, SCENE } from '../support/stage.js';

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
  const guess = presumed(model, observed(model, state), next, () => 1);
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
      const model = modelOf(stringify(laidOver(SCENE, over)));
      const lines = REPLICATIONS.flatMap((replication) => [
        `replication ${replication}`,
        ...played(model, replication),
      ]);
      expect(lines.join('\n')).toMatchSnapshot();
    },
  );
});
