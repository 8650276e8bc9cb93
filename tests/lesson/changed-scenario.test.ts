import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { StepTime } from '../../src/scenario/schema/steps.js';
import { type Change, paceChanges } from '../../src/lesson/change.js';
import { changedScenario, openScenarioText, Refused } from '../../src/lesson/changed-scenario.js';
import { root } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

const files = readdirSync(join(root, 'scenarios')).filter((file) => file.endsWith('.yaml'));
const opened = (file: string) => openScenarioText(readFileSync(join(root, 'scenarios', file), 'utf8'));

describe.each(files)('%s as a person changes it in the lesson', (file) => {
  it('is the same bytes where nothing is changed', () => {
    const scenario = opened(file);
    expect(changedScenario(scenario, [], null)).toBe(scenario);
  });

  it('keeps its comments and the other strategies, and has what was changed', () => {
    const scenario = opened(file);
    const [{ name }, ...others] = scenario.loaded.strategies;
    const { text, loaded } = changedScenario(scenario, paceChanges(name, 1.1, 1.2), 'other');
    expect(text).toContain('# yaml-language-server');
    expect(loaded.base.seed).toBe('other');
    expect(loaded.strategies[0].settings.pace).toEqual({ scan: 1.1, hands: 1.2, wait: 1 });
    expect(loaded.strategies.slice(1).map(({ settings }) => settings.pace)).toEqual(
      others.map(({ settings }) => settings.pace),
    );
  });

  it('has every preparation longer and every breakage oftener by the factor', () => {
    const scenario = opened(file);
    const changes = scenario.loaded.strategies.flatMap(({ name: strategy }): readonly Change[] => [
      { strategy, scale: 'preparation', factor: 2 },
      { strategy, scale: 'breakage', factor: 2 },
    ]);
    const { loaded } = changedScenario(scenario, changes, null);
    for (const [place, { settings }] of nonEmpty(loaded.strategies.entries())) {
      const before = scenario.loaded.strategies[place].settings;
      const { prepare } = before.workflows.hop.steps;
      expect(settings.workflows.hop.steps.prepare).toEqual({ ...prepare, ...doubled(prepare) });
      for (const [kind, { hazards }] of nonEmpty(Object.entries(settings.tips)))
        for (const [number, { cause, life }] of nonEmpty(hazards.entries())) {
          const old = before.tips[kind].hazards[number].life;
          if (cause !== 'breakage') expect(life).toEqual(old);
          else if (life.distribution === 'probability' && old.distribution === 'probability')
            expect(life.perUnit).toBe(2 * old.perUnit);
          else expect(JSON.stringify(life)).not.toBe(JSON.stringify(old));
        }
    }
  });
});

function doubled(step: StepTime): StepTime {
  if ('usual' in step) return { usual: 2 * step.usual, p90: 2 * step.p90 };
  if ('min' in step) return { min: 2 * step.min, mode: 2 * step.mode, max: 2 * step.max };
  return 'fixed' in step ? { fixed: 2 * step.fixed } : step;
}

describe('a change that gives no sensible scenario', () => {
  it('is refused with the message of the command line', () => {
    const scenario = opened('lesson.yaml');
    expect(() => changedScenario(scenario, paceChanges('swap by hand', 9, 1), null)).toThrow(Refused);
    expect(() => changedScenario(scenario, paceChanges('swap by hand', 9, 1), null)).toThrow(/misses what/);
    expect(() => changedScenario(scenario, [{ strategy: 'x', scale: 'fouling', factor: 2 }], null)).toThrow(/called x/);
  });
});
