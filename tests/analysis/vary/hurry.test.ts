import { expect, it } from 'vitest';
import { hurryAlong, notToHurry } from '../../../src/analysis/vary/hurry.js';

it('warns that what comes out for quicker hands or steps is no advice to hurry, and of nothing else', () => {
  for (const path of ['pace.hands', 'strategies.swap.pace.hands', 'workflows.swap.steps.exchange.usual'])
    expect(notToHurry([{ path }]).join()).toContain('not advice to hurry');
  expect(notToHurry([{ path: 'pace.scan' }, { path: 'rules.after' }])).toEqual([]);
});

it('knows which way along a value is a hurry', () => {
  for (const path of ['pace.scan', 'strategies.swap.pace.hands', 'pace.wait', 'workflows.hop.steps.settle.until'])
    expect(hurryAlong(path)).toBe(1);
  for (const path of ['workflows.swap.steps.settle', 'workflows.swap.steps.settle.fixed'])
    expect(hurryAlong(path)).toBe(-1);
  for (const path of ['rules.after', 'workflows.swap.steps.relocate.success', 'plan.regions'])
    expect(hurryAlong(path)).toBeNull();
});
