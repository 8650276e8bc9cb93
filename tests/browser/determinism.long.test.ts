import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { launchChromium } from '../support/browser.js';
import { bundledDigests } from '../support/bundled-digests.js';
import { campaignDigest, luckDigest } from '../support/campaign-digest.js';
import { nonEmpty } from '../support/non-empty.js';

const REPLICATIONS = 20;
const folder = 'scenarios';
const scenarios = readdirSync(folder).filter((file) => file.endsWith('.yaml'));

describe('the same seed gives the same bits in Node and in Chromium', () => {
  it('for draws, lives, durations and whole campaigns of every scenario', { timeout: 120_000 }, async () => {
    const script = await bundledDigests('iife');
    const browser = await launchChromium();
    try {
      const page = await browser.newPage();
      await page.addScriptTag({ content: script });
      const run = (expression: string) => page.evaluate<string>(expression);
      expect(await run('engine.luckDigest(100000, 2000)')).toBe(luckDigest(100_000, 2000));
      for (const file of nonEmpty(scenarios)) {
        const text = readFileSync(join(folder, file), 'utf8');
        const here = campaignDigest(text, REPLICATIONS);
        expect(here, file).toMatch(/^[0-9a-f]{8}$/u);
        expect(await run(`engine.campaignDigest(${JSON.stringify(text)}, ${REPLICATIONS})`), file).toBe(here);
      }
    } finally {
      await browser.close();
    }
  });
});
