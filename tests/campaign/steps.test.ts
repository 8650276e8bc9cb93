import { describe, expect, it } from 'vitest';
import type { CampaignModel } from '../../src/campaign/model.js';
import { stepTime } from '../../src/campaign/step-model.js';
import { type Phase, runsUnattended, STEP_NUMBER, type StepName } from '../../src/campaign/steps.js';
import { plainModel, sceneModel } from '../support/scene.js';

const NAMES = Object.keys(STEP_NUMBER).filter((name): name is StepName => name in STEP_NUMBER);
const unattended = (phase: Phase, what: 'none' | 'scanning' | 'hopping') =>
  NAMES.filter((name) => runsUnattended(name, phase, what));

it('nothing starts unattended where the scenario lets nothing', () => {
  expect(unattended('measuring', 'none')).toEqual([]);
  expect(unattended('resuming', 'none')).toEqual([]);
});

it('scans, and what is made of them, go unattended where scanning does; a region is found again only to resume', () => {
  expect(unattended('measuring', 'scanning')).toEqual(['warmUp', 'settle', 'check', 'review', 'scan']);
  expect(unattended('changing region', 'scanning')).toEqual(['warmUp', 'settle', 'check', 'review', 'scan']);
  expect(unattended('resuming', 'scanning')).toEqual([
    ...['warmUp', 'approach', 'relocate', 'settle', 'register', 'check', 'review', 'scan'],
  ]);
});

it('hops go unattended where hopping does, and cleaning that needs no hands; nothing that a person puts in place does', () => {
  expect(unattended('changing tip', 'hopping')).toEqual([
    ...['warmUp', 'retract', 'resonance', 'approach', 'settle', 'offset', 'coarseMove', 'register'],
    ...['clean', 'recondition', 'check', 'review', 'scan'],
  ]);
});

describe('the steps of a workflow', () => {
  const [swap, hop] = (['swap', 'hop'] as const).map(
    (workflow) => (more: object) => plainModel({ workflow, regions: 1, samples: 2, ...more }).steps,
  );
  const manual = (steps: CampaignModel['steps']) => NAMES.filter((name) => steps[name].manual);

  it('need an operator as the model marks them, unless the scenario says otherwise', () => {
    const put = ['setUp', 'locate'];
    const remedies = ['clean', 'recondition'];
    expect(manual(swap({}))).toEqual([
      ...[...put, 'exchange', 'align', 'resonance', 'relocate'],
      ...[...remedies, 'changeSample'],
    ]);
    expect(manual(hop({}))).toEqual(['prepare', ...put, 'align', 'chipExchange', ...remedies, 'changeSample']);
    const steps = { retract: { fixed: '10 s', manual: true }, locate: { fixed: '60 s', manual: false } };
    const other = sceneModel({ workflows: { swap: { steps } } }).steps;
    expect([other.retract.manual, other.locate.manual]).toEqual([true, false]);
  });

  it('take 1/paceHands of their time where they are manual, 1/paceWait where they are waits, else all of it', () => {
    const steps = { locate: 60, warmUp: 60, settle: 60, retract: 60, register: 60 };
    const { locate, warmUp, settle, retract, register } = hop({ steps, pace: { hands: 2, wait: 3 } });
    expect([locate, warmUp, settle, retract, register].map((step) => stepTime(step, 0.5) / 1e6)).toEqual([
      ...[30, 20, 20, 60, 60],
    ]);
  });

  it('fail more often in haste only where they are manual', () => {
    const hurried = { pace: { hands: 2 }, more: { haste: { successExponent: 1 } } };
    expect(swap({ ...hurried, success: { relocate: 0.9 } }).relocate.success).toBeCloseTo(0.8, 12);
    expect(hop({ ...hurried, success: { register: 0.9 } }).register.success).toBe(0.9);
  });
});
