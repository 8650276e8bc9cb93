import type { DisturbanceKind } from '../probe/drift.js';
import type { Activity } from './activities.js';

/**
 * Steps of all workflows with the number of their draws: append only, or every published result would change.
 * Two workflows that share a step share its luck.
 */
export const STEP_NUMBER = {
  prepare: 0,
  setUp: 1,
  warmUp: 2,
  locate: 3,
  retract: 4,
  exchange: 5,
  align: 6,
  resonance: 7,
  approach: 8,
  relocate: 9,
  settle: 10,
  offset: 11,
  coarseMove: 12,
  chipExchange: 13,
  register: 14,
  clean: 15,
  recondition: 16,
  check: 17,
  review: 18,
  scan: 19,
  changeSample: 20,
} as const;
export type StepName = keyof typeof STEP_NUMBER;
export const STEP_NUMBERS: readonly number[] = Object.values(STEP_NUMBER);

/** A record with one entry a step. */
export function perStep<Value>(of: (name: StepName) => Value): Readonly<Record<StepName, Value>> {
  return {
    prepare: of('prepare'),
    setUp: of('setUp'),
    warmUp: of('warmUp'),
    locate: of('locate'),
    retract: of('retract'),
    exchange: of('exchange'),
    align: of('align'),
    resonance: of('resonance'),
    approach: of('approach'),
    relocate: of('relocate'),
    settle: of('settle'),
    offset: of('offset'),
    coarseMove: of('coarseMove'),
    chipExchange: of('chipExchange'),
    register: of('register'),
    clean: of('clean'),
    recondition: of('recondition'),
    check: of('check'),
    review: of('review'),
    scan: of('scan'),
    changeSample: of('changeSample'),
  };
}

/** What a step that ends leaves drifting. */
const DISTURBS: Partial<Readonly<Record<StepName, DisturbanceKind>>> = {
  setUp: 'handling',
  exchange: 'handling',
  chipExchange: 'handling',
  changeSample: 'handling',
  offset: 'move',
  coarseMove: 'move',
};

/** The kind of disturbance that a step is; null where it is none. */
export function disturbanceOf(step: StepName): DisturbanceKind | null {
  return DISTURBS[step] ?? null;
}

/** Why a step is done, which says what its time counts as and who must be there. */
export type Phase = 'starting' | 'changing tip' | 'changing region' | 'changing sample' | 'resuming' | 'measuring';

/** Who must be there for a step to start: an operator's hands, an operator's presence, or nobody. */
export type Need = 'hands' | 'presence' | 'nobody';

/** A step needs the tip at the surface, before or after the region has been found again. */
export type SurfaceNeed = 'before finding' | 'after finding';

/** Steps that count as the same activity whatever they are done for. */
const ALWAYS: Partial<Readonly<Record<StepName, Activity>>> = {
  prepare: 'preparing and setting up',
  setUp: 'preparing and setting up',
  warmUp: 'warming up and settling',
  settle: 'warming up and settling',
  locate: 'locating and relocating',
  relocate: 'locating and relocating',
  register: 'locating and relocating',
  chipExchange: 'exchanging',
  clean: 'cleaning and reconditioning',
  recondition: 'cleaning and reconditioning',
  check: 'checking',
  review: 'reviewing',
  scan: 'scanning kept',
};

/** What a step's time counts as whatever it is done for; null where that depends. */
export function alwaysCountsAs(step: StepName): Activity | null {
  return ALWAYS[step] ?? null;
}

/** Steps that may start with no operator present, by what the scenario lets go unattended. */
const UNATTENDED_SCANNING: readonly StepName[] = ['scan', 'review', 'check', 'warmUp', 'settle'];
const UNATTENDED_RESUMING: readonly StepName[] = ['approach', 'relocate', 'register'];
const UNATTENDED_HOPPING: readonly StepName[] = [
  'retract',
  'offset',
  'coarseMove',
  'approach',
  'resonance',
  'settle',
  'register',
];

/** Whether a step that is not manual may start with no operator present. Cleaning and reconditioning that need no hands count as hopping does. */
export function runsUnattended(step: StepName, phase: Phase, unattended: 'none' | 'scanning' | 'hopping'): boolean {
  if (unattended === 'none') return false;
  if (UNATTENDED_SCANNING.includes(step)) return true;
  if (phase === 'resuming' && UNATTENDED_RESUMING.includes(step)) return true;
  return unattended === 'hopping' && (UNATTENDED_HOPPING.includes(step) || step === 'clean' || step === 'recondition');
}
