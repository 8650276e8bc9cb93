import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../src/scenario/load.js';
import { root } from '../support/command.js';

const shipped = ['scenarios', 'scenarios/starters'].flatMap((folder) =>
  readdirSync(join(root, folder))
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => join(folder, file)),
);

describe.each(shipped)('%s', (file) => {
  const text = readFileSync(join(root, file), 'utf8');

  it('loads without a fault or a warning', () => {
    const result = loadScenario(text);
    expect(result.ok ? result.warnings : result.faults).toEqual([]);
    expect(result.ok).toBe(true);
  });

  it('leads an editor to the schema with its first line', () => {
    const path = /^# yaml-language-server: \$schema=(.*)$/m.exec(text)?.[1] ?? '';
    expect(text.startsWith('# yaml-language-server: ')).toBe(true);
    expect(resolve(root, dirname(file), path)).toBe(join(root, 'shared/scenario.schema.json'));
  });

  it('compares two to four strategies, names where some of its values come from, and shows cautions', () => {
    const result = loadScenario(text);
    if (!result.ok) throw new Error('does not load');
    const { scenario } = result;
    expect(scenario.strategies.length).toBeGreaterThanOrEqual(2);
    expect(scenario.strategies.length).toBeLessThanOrEqual(4);
    expect(Object.keys(scenario.base.sources).length).toBeGreaterThan(0);
    expect(scenario.base.cautions).toContain('sharp-silicon');
  });
});
