import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { root } from '../support/command.js';

const SOURCES = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .map((file) => ({ file, text: readFileSync(join(root, 'src', file), 'utf8') }));

it.each([
  'lineRate',
  'neededResolution',
  'trackingBandwidth',
  'driftTolerance',
  'radiusError',
  'regionGap',
  'instrumentHour',
])('a value of the scenario is named where it is declared and where it is used, in at most 10 files: %s', (value) => {
  const named = SOURCES.filter(({ text }) => new RegExp(`\\b${value}\\b`, 'u').test(text)).map(({ file }) => file);
  expect(named.length).toBeGreaterThan(0);
  expect(named.length).toBeLessThanOrEqual(10);
});
