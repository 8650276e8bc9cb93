import { expect, it } from 'vitest';
import { type Phase, runsUnattended, STEP_NUMBER, type StepName } from '../../src/campaign/steps.js';

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
