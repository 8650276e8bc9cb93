import { expect, it } from 'vitest';
import { notToHurry } from '../../../src/study/vary/hurry.js';

it('warns that what comes out for quicker hands or steps is no advice to hurry, and of nothing else', () => {
  for (const path of ['pace.hands', 'strategies.swap.pace.hands', 'workflows.swap.steps.exchange.usual'])
    expect(notToHurry([{ path }]).join()).toContain('not advice to hurry');
  expect(notToHurry([{ path: 'pace.scan' }, { path: 'rules.after' }])).toEqual([]);
});
