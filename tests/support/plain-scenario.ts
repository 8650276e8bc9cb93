import type { CampaignModel } from '../../src/campaign/model.js';
import { modelOf } from './run.js';

/** Steps of a workflow in seconds; those not named take no time. */
export type Seconds = Readonly<Record<string, number>>;

type Raw = Readonly<Record<string, unknown>>;

export interface Plain {
  readonly workflow?: 'swap' | 'hop';
  readonly order?: 'region-first' | 'tip-first';
  /** Number or list of samples: one if not given. */
  readonly samples?: number | readonly Raw[];
  readonly instruments?: number;
  /** Images of the only pass, if `passes` says nothing else. */
  readonly regions: number;
  /** One entry a pass: what differs from a scan of 60 lines at 1 Hz over 100 nm by the kind `tip`, accepted at 1. */
  readonly passes?: readonly Raw[];
  /** Hazards of the only kind, if `tips` says nothing else. */
  readonly hazards?: readonly Raw[];
  readonly tips?: Raw;
  readonly steps?: Seconds;
  /** How it settles, if not for the seconds of `steps`. */
  readonly settle?: Raw;
  /** Chance that a try of a step succeeds: 1 if not given. */
  readonly success?: Readonly<Record<string, number>>;
  /** Further keys of the workflow. */
  readonly more?: Raw;
  readonly noticing?: Raw;
  readonly rules?: Raw;
  readonly stock?: Raw;
  readonly pace?: Raw;
  readonly bookings?: Raw;
  readonly operators?: Raw;
}

const COMMON = ['setUp', 'warmUp', 'locate', 'retract', 'align', 'resonance', 'approach', 'settle', 'changeSample'];
const STEPS = {
  swap: [...COMMON, 'exchange', 'relocate'],
  hop: [...COMMON, 'prepare', 'offset', 'coarseMove', 'chipExchange', 'register'],
};
const REPEATED = ['prepare', 'relocate', 'register'];

/** One kind that is the same each time and never blunts; hazards as given. */
export function evenKind(hazards: readonly Raw[]): Raw {
  return { radius: { nominal: '8 nm', spread: 1 }, hazards };
}

/**
 * The plainest campaign, with what a test wants put in: always booked and attended, every step fixed and sure, no
 * mishandling, no loss of a specimen, no dead sites, a perfect automatic review that takes no time, attempts that do not bind.
 */
export function plainModel(plain: Plain): CampaignModel {
  return modelOf(plainText(plain));
}

/** The scenario of that campaign, as text. */
export function plainText(plain: Plain): string {
  const { workflow = 'swap', steps = {}, success = {}, hazards = [] } = plain;
  const tips = plain.tips ?? { tip: evenKind(hazards) };
  const passes = (plain.passes ?? [{}]).map((pass, i) => ({
    name: `pass ${i + 1}`,
    tip: 'tip',
    size: '100 nm',
    lines: 60,
    lineRate: '1 Hz',
    accept: 1,
    ...pass,
  }));
  const stepOf = (name: string): Raw => ({
    fixed: `${steps[name] ?? 0} s`,
    ...(REPEATED.includes(name) ? { success: success[name] ?? 1 } : {}),
  });
  const hopOnly = {
    specimenLoss: 0,
    chip: { sites: Object.fromEntries(Object.keys(tips).map((kind) => [kind, 100_000])) },
  };
  return JSON.stringify({
    title: 'A plain plan',
    plan: { samples: plain.samples ?? 1, regions: plain.regions, order: plain.order ?? 'region-first', passes },
    tips,
    workflows: {
      [workflow]: {
        steps: {
          ...Object.fromEntries(STEPS[workflow].map((name) => [name, stepOf(name)])),
          ...(plain.settle === undefined ? {} : { settle: plain.settle }),
        },
        mishandling: { probability: 0 },
        ...(workflow === 'hop' ? hopOnly : {}),
        ...plain.more,
      },
    },
    noticing: {
      review: { by: 'automatic', time: '0 s', sensitivity: 1, falseAlarm: 0 },
      attempts: 1000,
      ...plain.noticing,
    },
    ...(plain.rules === undefined ? {} : { rules: plain.rules }),
    ...(plain.stock === undefined ? {} : { stock: plain.stock }),
    ...(plain.pace === undefined ? {} : { pace: plain.pace }),
    ...(plain.bookings === undefined ? {} : { bookings: plain.bookings }),
    instruments: plain.instruments ?? 1,
    ...(plain.operators === undefined ? {} : { operators: plain.operators }),
    strategies: [{ name: 'the only one', workflow }],
  });
}
