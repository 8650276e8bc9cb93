import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { root } from '../support/command.js';

const read = (file: string) => readFileSync(join(root, file), 'utf8');
const { version } = z.object({ version: z.string() }).parse(JSON.parse(read('package.json')));

describe('the version', () => {
  it('is the same in CITATION.cff as in package.json', () => {
    expect(z.object({ version: z.string() }).parse(parse(read('CITATION.cff'))).version).toBe(version);
  });

  it('is the newest release in CHANGELOG.md, with the date that CITATION.cff gives', () => {
    const newest = /^## \[(\d[^\]]*)\] - (\d{4}-\d{2}-\d{2})$/m.exec(read('CHANGELOG.md'));
    const citation = z.object({ 'date-released': z.string() }).parse(parse(read('CITATION.cff')));
    expect(newest?.slice(1)).toEqual([version, citation['date-released']]);
  });

  it('is the same in the lock file', () => {
    expect(z.object({ version: z.string() }).parse(JSON.parse(read('package-lock.json'))).version).toBe(version);
  });
});
