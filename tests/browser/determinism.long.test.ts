import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';
import { describe, expect, it } from 'vitest';
import { launchChromium } from '../support/browser.js';
import { campaignDigest, luckDigest } from '../support/campaign-digest.js';

const REPLICATIONS = 20;
const folder = 'scenarios';
const scenarios = readdirSync(folder).filter((file) => file.endsWith('.yaml'));

/** The engine and its digests as one script for a browser. */
async function bundled(): Promise<string> {
  const result = await build({
    configFile: false,
    logLevel: 'silent',
    build: {
      write: false,
      minify: false,
      lib: { entry: 'tests/support/campaign-digest.ts', formats: ['iife'], name: 'engine' },
    },
  });
  const outputs = Array.isArray(result) ? result : 'output' in result ? [result] : [];
  const chunk = outputs.flatMap(({ output }) => output).find(({ type }) => type === 'chunk');
  if (chunk?.type !== 'chunk') throw new Error('The bundle is empty.');
  return chunk.code;
}

describe('the same seed gives the same bits in Node and in Chromium', () => {
  it('for draws, lives, durations and whole campaigns of every scenario', { timeout: 120_000 }, async () => {
    const script = await bundled();
    const browser = await launchChromium();
    try {
      const page = await browser.newPage();
      await page.addScriptTag({ content: script });
      const run = (expression: string) => page.evaluate<string>(expression);
      expect(await run('engine.luckDigest(100000, 2000)')).toBe(luckDigest(100_000, 2000));
      for (const file of scenarios) {
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
