import type { CampaignModel } from '../../src/campaign/model.js';
import { modelOf, type Raw } from './run.js';

function isRaw(value: unknown): value is Raw {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** `over` laid over `under`, map by map; what is undefined there is taken away. */
export function laidOver(under: Raw, over: Raw): Raw {
  const merged = new Map(Object.entries(under));
  for (const [key, value] of Object.entries(over)) {
    const held = merged.get(key);
    if (value === undefined) merged.delete(key);
    else merged.set(key, isRaw(held) && isRaw(value) ? laidOver(held, value) : value);
  }
  return Object.fromEntries(merged);
}

/** A pass whose scan takes `minutes`, accepted at 0.8 unless `more` says otherwise. */
export function pass(name: string, minutes: number, more: Raw = {}): Raw {
  return { name, tip: 'sharp', size: '1 um', lines: 60, lineRate: `${1 / minutes} Hz`, ...more };
}

/** A kind of tip that never blunts and starts with the same apex each time. */
export function kind(...hazards: readonly Raw[]): Raw {
  return { radius: { nominal: '10 nm', geometricSd: 1 }, hazards };
}

/** A hazard that comes after exactly so much use (to one part in ten thousand, on luck of one half). */
export function after(use: number, hazard: Raw): Raw {
  return { per: 'image', life: { distribution: 'lognormal', median: use, geometricSd: 1.0001 }, ...hazard };
}

const STEPS = {
  swap: {
    setUp: '10 min',
    warmUp: '5 min',
    locate: '4 min',
    approach: '1 min',
    retract: '1 min',
    exchange: '3 min',
    align: '2 min',
    resonance: '1 min',
    relocate: { fixed: '3 min', success: 1 },
    settle: '2 min',
    changeSample: '6 min',
  },
  hop: {
    prepare: { fixed: '30 min', success: 1 },
    setUp: '10 min',
    warmUp: '5 min',
    locate: '4 min',
    approach: '1 min',
    retract: '1 min',
    offset: '1 min',
    coarseMove: '2 min',
    chipExchange: '15 min',
    resonance: '1 min',
    settle: '2 min',
    register: { fixed: '2 min', success: 1 },
    changeSample: '6 min',
    align: '2 min',
  },
};
const NO_CARE = { mishandling: { probability: 0 } };
const PERFECT_REVIEW = { by: 'automatic', time: '0 s', sensitivity: 1, falseAlarm: 0 };

/** One region, one scan of 10 min, every step of a fixed time, nothing that fails; always booked and attended; a perfect automatic review in no time. */
export const SCENE: Raw = {
  title: 'scene',
  plan: { regions: 1, passes: [pass('image', 10)] },
  tips: { sharp: kind() },
  noticing: { review: PERFECT_REVIEW },
  workflows: {
    swap: { ...NO_CARE, steps: STEPS.swap },
    hop: { ...NO_CARE, specimenLoss: 0, chip: { sites: { sharp: 9 }, pitch: '100 um' }, steps: STEPS.hop },
  },
  strategies: [{ name: 'one', workflow: 'swap' }],
};

/** The model of that scene with what a test lays over it. */
export function sceneModel(over: Raw = {}): CampaignModel {
  return modelOf(laidOver(SCENE, over));
}

/** The specimen is prepared at the instrument, so that a diary shows it. */
export const HOPPING: Raw = {
  workflows: { hop: { prepareAt: 'instrument' } },
  strategies: [{ name: 'one', workflow: 'hop' }],
};

/** Numbers by the names of steps. */
type OfSteps = Readonly<Record<string, number>>;

export interface Plain {
  readonly workflow?: 'swap' | 'hop';
  readonly order?: 'region-first' | 'tip-first';
  /** Number or list of samples: one if not given. */
  readonly samples?: number | readonly Raw[];
  /** Images of the only pass, if `passes` says nothing else: one if not given. */
  readonly regions?: number;
  /** One entry a pass: what differs from a scan of `SCAN` seconds over 100 nm by the kind `tip`, accepted at 1. */
  readonly passes?: readonly Raw[];
  /** Hazards of the only kind, if `tips` says nothing else. */
  readonly hazards?: readonly Raw[];
  readonly tips?: Raw;
  /** Seconds of the steps; those not named take no time. */
  readonly steps?: OfSteps;
  /** How it settles, if not for the seconds of `steps`. */
  readonly settle?: Raw;
  /** Chance that a try of a step succeeds: 1 if not given. */
  readonly success?: OfSteps;
  /** Further keys of the workflow. */
  readonly more?: Raw;
  readonly noticing?: Raw;
  readonly rules?: Raw;
  readonly stock?: Raw;
  readonly pace?: Raw;
  readonly bookings?: Raw;
  readonly operators?: Raw;
  readonly instruments?: number;
}

/** Seconds of one plain scan. */
export const SCAN = 60;

/** One kind that is the same each time and never blunts; hazards as given. */
export function evenKind(hazards: readonly Raw[] = []): Raw {
  return { radius: { nominal: '8 nm', geometricSd: 1 }, hazards };
}

/**
 * The plainest campaign, with what a test wants put in: always booked and attended, every step fixed and sure, no
 * mishandling, no loss of a specimen, no dead sites, a perfect automatic review that takes no time, attempts that do not bind.
 */
export function plainScenario(plain: Plain): Raw {
  const {
    workflow = 'swap',
    order = 'region-first',
    samples = 1,
    regions = 1,
    passes = [{}],
    hazards,
    ...rest
  } = plain;
  const { steps = {}, settle, success = {}, more, noticing, tips = { tip: evenKind(hazards) }, ...asWritten } = rest;
  const lasting = ([name, step]: [string, unknown]): [string, unknown] => {
    const time = `${steps[name] ?? 0} s`;
    return [name, isRaw(step) ? { fixed: time, success: success[name] ?? 1 } : time];
  };
  const sites = Object.fromEntries(Object.keys(tips).map((name) => [name, 100_000]));
  return {
    title: 'A plain plan',
    plan: {
      samples,
      regions,
      order,
      passes: passes.map((over, i) => ({
        ...pass(`pass ${i + 1}`, SCAN / 60, { tip: 'tip', size: '100 nm', accept: 1 }),
        ...over,
      })),
    },
    tips,
    workflows: {
      [workflow]: {
        ...NO_CARE,
        ...(workflow === 'hop' ? { specimenLoss: 0, chip: { sites } } : {}),
        steps: {
          ...Object.fromEntries(Object.entries(STEPS[workflow]).map(lasting)),
          ...(settle === undefined ? {} : { settle }),
        },
        ...more,
      },
    },
    noticing: { review: PERFECT_REVIEW, attempts: 1000, ...noticing },
    ...asWritten,
    strategies: [{ name: 'the only one', workflow }],
  };
}

/** The model of that campaign. */
export function plainModel(plain: Plain): CampaignModel {
  return modelOf(plainScenario(plain));
}

/** The scenario of that campaign, as text. */
export function plainText(plain: Plain): string {
  return JSON.stringify(plainScenario(plain));
}
