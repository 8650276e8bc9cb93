import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeValue } from '../../src/explore/engine/write-value.js';
import { loadScenario } from '../../src/scenario/load.js';
import { root } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';
import { loadedOf } from '../support/run.js';

const text = readFileSync(join(root, 'scenarios/ambient-islands.yaml'), 'utf8');

describe('a value put into the text of a scenario', () => {
  it('puts every value of the form at an end of its range, and the scenario then has it', () => {
    const scenario = loadedOf(text);
    for (const { path, range } of nonEmpty(scenario.register.filter((entry) => entry.range !== null))) {
      if (range === null) continue;
      const result = writeValue(text, scenario, path, String(range.high));
      expect(result, path).toMatchObject({ ok: true });
      if (!result.ok) continue;
      expect(result.text, path).toContain(String(range.high));
      const read = loadScenario(result.text);
      // What stands beside a value may not go with the end of its range.
      if (!read.ok) continue;
      const value = read.scenario.register.find((entry) => entry.path === path)?.value;
      expect(value, path).toBe(String(range.high));
    }
  });
});
