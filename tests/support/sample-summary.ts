import { measureOf } from '../../src/analysis/differences.js';
/** Invented comparisons of realistic shape for the tests of the report: no simulation, only a small seeded generator. */

import { ACTIVITIES, type Activity } from '../../src/campaign/activities.js';
import { COMPARED } from '../../src/analysis/compared-measures.js';
import type { Estimate } from '../../src/statistics/estimate.js';
import { perMeasure, type Measure } from '../../src/execution/measures.js';
import {
  SUMMARY_FORMAT,
  type ComparisonResult,
  type Difference,
  type ImageSummary,
  type MeasureSummary,
  type Assumption,
  type ReplicationRow,
  type Segment,
  type StrategySummary,
  type Timeline,
  type TipStretch,
  type Verdict,
} from '../../src/analysis/results.js';

export interface SampleOptions {
  readonly strategies: number;
  readonly images: number;
  readonly bookings: boolean;
  readonly decided?: boolean;
  /** Put in place of every name, title and source. */
  readonly hostile?: string;
  /** All replications alike. */
  readonly fixed?: boolean;
  /** No replication ever finishes. */
  readonly endless?: boolean;
  readonly replications?: number;
}

const COMMAND = 'swap-or-hop compare oxide-fields.yaml --seed 1';
const SHA256 = '9f2c1e5a7b3d4f60819c2ad4e5b6f7081a2b3c4d5e6f708192a3b4c5d6e7f809';
const HOUR = 3600;
const DAY = 24 * HOUR;
const NAMES = [
  'Swap by hand',
  'Hop, tips to the end',
  'Hop, new tip for each 12',
  'Swap, slow hands',
  'Hop, scan 20 % faster',
  'Swap, checked each 6',
  'Hop, checked each 6',
  'Swap, two probes parked',
];

type Random = () => number;

function random(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

function normal(next: Random): number {
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

function summarised(values: readonly number[]): MeasureSummary {
  const sorted = [...values].sort((a, b) => a - b);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const deviation = Math.sqrt(
    values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1),
  );
  const half = (1.96 * deviation) / Math.sqrt(values.length);
  const at = (p: number): number => sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))];
  return {
    value: mean,
    low: mean - half,
    high: mean + half,
    standardDeviation: deviation,
    quantiles: [0.1, 0.5, 0.9].map((probability) => ({
      probability,
      value: at(probability),
      low: at(Math.max(0, probability - 0.04)),
      high: at(Math.min(1, probability + 0.04)),
    })),
  };
}

function chance(share: number, n: number): Estimate {
  const half = 1.96 * Math.sqrt((share * (1 - share)) / n) + 0.5 / n;
  return { value: share, low: Math.max(0, share - half), high: Math.min(1, share + half) };
}

/** Wall-clock seconds at which so many seconds of work are done, in sessions of 8 h a day. */
function wall(work: number, bookings: boolean): number {
  if (!bookings) return work;
  const sessions = Math.floor(work / (8 * HOUR));
  return sessions * DAY + (work - sessions * 8 * HOUR);
}

interface Shape {
  readonly hop: boolean;
  readonly work: number;
  readonly spread: number;
  readonly yield: number;
  readonly tips: number;
}

function shapeOf(place: number, images: number): Shape {
  const hop = place % 2 === 1 || place === 2;
  const scan = images * 26 * 60;
  return {
    hop,
    work: (hop ? 5 * HOUR + scan * 1.08 : 1.5 * HOUR + scan * 1.32) * (1 + 0.03 * place),
    spread: hop ? 0.05 : 0.09,
    yield: 0.86 + 0.016 * ((place * 5) % 7),
    tips: (images / (hop ? 7 : 9)) * (1 + 0.1 * place),
  };
}

function rowsOf(place: number, options: SampleOptions, name: string, n: number): ReplicationRow[] {
  const shape = shapeOf(place, options.images);
  const next = random(1000 + place);
  return Array.from({ length: n }, (_, replication) => {
    const luck = options.fixed === true ? 0 : normal(next);
    const work = shape.work * Math.exp(shape.spread * luck);
    const time = wall(work, options.bookings);
    const good = Math.round(
      options.images * Math.min(1, shape.yield - 0.02 * luck + (options.fixed === true ? 0 : 0.015 * normal(next))),
    );
    const undetectedBad = Math.min(
      options.images - good,
      Math.round(options.images * 0.05 * next() * (options.fixed === true ? 0 : 1)),
    );
    const tips = Math.max(1, Math.round(shape.tips * Math.exp(0.16 * luck)));
    const measures: Record<Measure, number> = {
      totalTime: time,
      instrumentTime: work,
      operatorTime: work * (shape.hop ? 0.2 : 0.45),
      benchTime: shape.hop && options.bookings ? 2 * HOUR : 0,
      overrun: options.bookings ? 600 * next() : 0,
      confirmedAt: time,
      yield: (good / options.images) * 0.97,
      apparentYield: ((good + undetectedBad * 0.8) / options.images) * 0.97,
      undetectedBadShare: undetectedBad / options.images,
      good,
      undetectedBad,
      givenUp: options.images - good - undetectedBad,
      missing: 0,
      takes: Math.round(options.images * 1.14),
      tips,
      probes: shape.hop ? 0 : tips,
      chips: shape.hop ? Math.ceil(tips / 48) : 0,
      specimens: 1,
      cost: tips * (shape.hop ? 11 : 32) + (work / HOUR) * 45,
    };
    const finished = options.endless !== true;
    return { replication, strategy: name, measures, finished, finishedAt: finished ? time : null };
  });
}

function splitOf(shape: Shape, work: number, total: number): Record<Activity, number> {
  const shares: Record<Activity, number> = {
    'scanning kept': 0.62,
    'scanning lost': 0.08,
    reviewing: 0.03,
    checking: 0.02,
    'cleaning and reconditioning': shape.hop ? 0 : 0.02,
    exchanging: shape.hop ? 0.015 : 0.1,
    'locating and relocating': shape.hop ? 0.045 : 0.07,
    hopping: shape.hop ? 0.04 : 0,
    'preparing and setting up': shape.hop ? 0.09 : 0.02,
    'warming up and settling': 0.02,
    'waiting for a booking': 0,
    'waiting for stock': 0,
    'waiting for the operator': 0.02,
  };
  const sum = Object.values(shares).reduce((all, share) => all + share, 0);
  const split = Object.fromEntries(ACTIVITIES.map((activity) => [activity, (shares[activity] / sum) * work]));
  return { ...shares, ...split, 'waiting for a booking': Math.max(0, total - work) };
}

function imagesOf(place: number, options: SampleOptions, passes: readonly string[]): ImageSummary[] {
  const shape = shapeOf(place, options.images);
  const next = random(77 + place);
  return Array.from({ length: options.images }, (_, index) => {
    const pass = index % passes.length;
    const worn = shape.hop ? 0.03 * next() : 0.16 * ((index % 9) / 9) + 0.04 * next();
    const undetectedBad = worn * 0.4;
    const givenUp = worn * 0.3 + (pass === 1 ? 0.03 : 0);
    const good = 1 - undetectedBad - givenUp;
    return {
      image: index + 1,
      sample: '1',
      region: Math.floor(index / passes.length) + 1,
      pass: passes[pass],
      quality: good * (0.985 - 0.03 * pass),
      good,
      undetectedBad,
      givenUp,
      missing: 0,
      takes: 1 + worn,
    };
  });
}

function timelineOf(place: number, options: SampleOptions, name: string, stretch: number): Timeline {
  const shape = shapeOf(place, options.images);
  const next = random(5 + place);
  const segments: Segment[] = [];
  const tips: TipStretch[] = [];
  let work = 0;
  let number = 1;
  let since = 0;
  const kinds = ['sharp', 'coated'];
  const add = (activity: Activity, wanted: number, step: string, image: number | null): void => {
    const length = Math.round(wanted);
    const start = wall(work, options.bookings);
    const room = options.bookings ? 8 * HOUR - (work % (8 * HOUR)) : Number.POSITIVE_INFINITY;
    const first = Math.min(length, room);
    const tip = `${kinds[number % 2]} ${String(number)}`;
    segments.push({ instrument: 0, start, end: start + first, activity, step, tip, image });
    work += first;
    if (options.bookings && work % (8 * HOUR) === 0) {
      const end = wall(work, options.bookings);
      segments.push({
        instrument: 0,
        start: start + first,
        end,
        activity: 'waiting for a booking',
        step: 'closed',
        tip,
        image: null,
      });
      if (first < length) add(activity, length - first, step, image);
    }
  };
  const newTip = (state: TipStretch['state']): void => {
    const end = wall(work, options.bookings);
    const spoiled = end - (end - since) * 0.25;
    const tip = `${kinds[number % 2]} ${String(number)}`;
    tips.push({ instrument: 0, start: since, end: spoiled, tip, state: 'sound', radius: 8 + 4 * next() });
    tips.push({ instrument: 0, start: spoiled, end, tip, state, radius: 14 + 9 * next() });
    since = end;
    number += 1;
  };
  add('preparing and setting up', shape.hop ? 5 * HOUR : 1.2 * HOUR, 'set up', null);
  add('warming up and settling', 1800, 'warm up', null);
  for (let image = 0; image < options.images; image += 1) {
    add('locating and relocating', 240, 'locate', image);
    const lost = next() < 0.13;
    add(lost ? 'scanning lost' : 'scanning kept', 26 * 60 * stretch, 'scan', image);
    add('reviewing', 60, 'review', image);
    if (lost || image % 12 === 11) {
      newTip(lost ? (['broken', 'fouled', 'worn-out'] as const)[image % 3] : 'sound');
      if (shape.hop) add('hopping', 150, 'offset', null);
      else add('exchanging', 1100, 'exchange', null);
      if (lost) add('scanning kept', 26 * 60, 'scan', image);
    }
  }
  newTip('sound');
  return { strategy: name, segments, tips };
}

function strategyOf(
  place: number,
  options: SampleOptions,
  name: string,
  rows: readonly ReplicationRow[],
): StrategySummary {
  const shape = shapeOf(place, options.images);
  const n = rows.length;
  const values = (measure: Measure): number[] => rows.map((row) => row.measures[measure]);
  const measures = perMeasure((measure) => summarised(values(measure)));
  const ends = rows.flatMap((row) => (row.finishedAt === null ? [] : [row.finishedAt])).sort((a, b) => a - b);
  const every = Math.max(1, Math.ceil(ends.length / 150));
  const by = (time: number): Estimate => chance(ends.filter((end) => end <= time).length / n, n);
  const sessions = options.bookings ? Math.min(60, Math.ceil(Math.max(...ends, DAY) / DAY)) : 0;
  const granted = 3 * DAY + 8 * HOUR;
  const counts = new Map<number, number>();
  for (const tips of values('tips')) counts.set(tips, (counts.get(tips) ?? 0) + 1 / n);
  return {
    name,
    workflow: shape.hop ? 'hop' : 'swap',
    pace: { scan: 1, hands: 1 },
    preparesOnBench: shape.hop && options.bookings,
    leadTime: shape.hop && options.bookings ? { benchTime: 2 * HOUR, beginBy: 'Fri 15:00 the week before' } : null,
    measures,
    split: splitOf(shape, measures.instrumentTime.value, measures.totalTime.value),
    finishes: chance(ends.length / n, n),
    finishing: ends
      .filter((_, at) => at % every === every - 1 || at === ends.length - 1)
      .filter((end, at, all) => end !== all[at + 1])
      .map((time) => ({ time, ...by(time) })),
    finishedBySession: Array.from({ length: sessions }, (_, session) => {
      const time = session * DAY + 8 * HOUR;
      return { session: session + 1, time, ...by(time) };
    }),
    withinAllocation: options.bookings ? by(granted) : null,
    cut: options.bookings
      ? {
          yield: { value: 0.8, low: 0.79, high: 0.81 },
          undetectedBadShare: { value: 0.02, low: 0.018, high: 0.022 },
          missing: { value: 3.1, low: 2.9, high: 3.3 },
          tips: { value: 6.4, low: 6.2, high: 6.6 },
        }
      : null,
    tipCounts: [...counts].sort(([a], [b]) => a - b).map(([tips, share]) => ({ tips, share })),
    spoiledBy: [
      { cause: 'breakage', tips: 1.8 },
      { cause: 'fouling', tips: 1.1 },
      { cause: 'unspoiled', tips: 2.2 },
    ],
    wentBecause: [
      { reason: 'flagged by review', tips: 2.9 },
      { reason: 'end of the plan', tips: 1 },
    ],
    cloud: rows.slice(0, 400).map((row) => ({
      replication: row.replication,
      time: row.measures['instrumentTime'],
      yield: row.measures.yield,
      tips: row.measures.tips,
    })),
    images: imagesOf(place, options, passNames(options)),
  };
}

function passNames(options: SampleOptions): readonly string[] {
  return options.hostile === undefined ? ['height', 'current'] : [options.hostile, 'current'];
}

function differencesOf(strategies: readonly string[], rows: readonly (readonly ReplicationRow[])[]): Difference[] {
  return strategies.slice(1).flatMap((strategy, place) =>
    COMPARED.map((measure) => {
      const of = measureOf(measure);
      const pairs = rows[place + 1].map((row, at) => row.measures[of] - rows[0][at].measures[of]);
      const { value, low, high } = summarised(pairs);
      const base = summarised(rows[0].map((row) => row.measures[of])).value;
      return {
        strategy,
        measure,
        estimate: { value, low, high },
        relativePrecision: base === 0 ? null : (high - low) / 2 / base,
        smallest: measure === 'yield' || measure === 'undetectedBadShare' ? 0.01 : 0.05 * base,
        verdict: low > 0 ? 'more' : high < 0 ? 'less' : 'no clear difference',
      };
    }),
  );
}

function assumptionsOf(options: SampleOptions, verdict: Verdict): Assumption[] {
  const text = (usual: string): string => options.hostile ?? usual;
  const entry = (
    path: string,
    value: string,
    range: string | null,
    source: string | null,
    isDefault = false,
  ): Assumption => ({
    path,
    value: text(value),
    description: text(`What ${path.replaceAll('.', ' ')} is in this plan`),
    range,
    standing: source !== null ? (isDefault ? 'published' : 'given source') : range === null ? 'choice' : 'assumed',
    source: source === null ? null : text(source),
    note: source === null && range !== null && isDefault ? text('usual practice, no source') : null,
    isDefault,
    reversals: range === null ? null : verdict.reversals.filter((reversal) => reversal.path === path),
  });
  return [
    entry('plan.regions', '24', null, null),
    entry('plan.passes.0.size', '2 µm', null, null),
    entry('plan.passes.0.lines', '512', null, null),
    entry('tips.sharp.nominal', '8 nm', '5 nm to 12 nm', 'own record of 40 probes, last year'),
    entry('tips.sharp.radius.geometricSd', '1.25', '1.1 to 1.5', null),
    entry('tips.sharp.hazards.0.life.mean', '14 images', '7 images to 28 images', null),
    entry(
      'tips.coated.hazards.0.life.scale',
      '9 mm',
      '4 mm to 18 mm',
      'Villarrubia, J. Res. NIST 102, 425 (1997), as a way of measuring',
    ),
    entry(
      'workflows.swap.exchange',
      '6 min, 9 in 10 below 11 min',
      '3 min to 12 min',
      'common practice, no source',
      true,
    ),
    entry('workflows.hop.prepare', '4 h', '2 h to 8 h', null, true),
    entry('workflows.hop.prepareSuccess', '0.8', '0.5 to 1', null),
    entry('noticing.review.sensitivity', '0.9', '0.7 to 1', null, true),
    entry('bookings.hours', 'Mo-Fr 09:00-17:00', null, null),
  ];
}

/** A comparison that satisfies every type of the contract and looks like one of the tool's own. */
export function sampleComparison(options: SampleOptions): ComparisonResult {
  const n = options.replications ?? 400;
  const names = Array.from({ length: options.strategies }, (_, place) =>
    options.hostile === undefined ? NAMES[place % NAMES.length] : `${options.hostile} ${String(place + 1)}`,
  );
  const rows = names.map((name, place) => rowsOf(place, options, name, n));
  const decided = options.decided ?? true;
  const verdict: Verdict = {
    decided,
    headline: names.length > 1 ? ['One takes less time.'] : ['It takes 9 h.'],
    inconclusive: decided ? null : 'Inconclusive: rests on one unmeasured value.',
    remarks: [],
    findings: [
      `“${names[names.length > 1 ? 1 : 0]}” takes less instrument time than “${names[0]}” at a yield that is no lower.`,
      'It uses more tips, which are sites of a chip.',
    ],
    reversals: decided
      ? []
      : [
          {
            path: 'workflows.hop.prepare',
            strategy: names[names.length > 1 ? 1 : 0],
            measure: 'time',
            at: '8 h',
            baseline: -2.1 * HOUR,
            atLimit: { value: 1.9 * HOUR, low: 1.5 * HOUR, high: 2.3 * HOUR },
            isReversed: true,
          },
        ],
  };
  const passes = passNames(options);
  const shown = [
    { replication: 117, label: 'nearest to the medians of all strategies', stretch: 1, at: 49 },
    { replication: 268, label: 'nearest to the 90th percentile of time', stretch: 1.12, at: 90 },
  ].map(({ replication, label, stretch, at }) => ({
    replication,
    label,
    percentiles: names.map((strategy, place) => ({
      strategy,
      time: at + place,
      yield: 52,
      tips: 41 + 2 * place,
    })),
    timelines: names.map((name, place) => timelineOf(place, options, name, stretch)),
  }));
  return {
    summary: {
      format: SUMMARY_FORMAT,
      formatVersion: 2,
      tool: { name: 'swap-or-hop', version: '0.1.0', commit: '5e1f0a7c39b2d48e6f01a5c7b9d3e2f4061728ab' },
      command: options.hostile === undefined ? COMMAND : `${COMMAND} '${options.hostile}'`,
      platform: { system: 'linux', architecture: 'x64', node: '20.19.0' },
      inputs: [{ option: 'file', file: 'oxide-fields.yaml', sha256: SHA256 }],
      scenario: {
        title: options.hostile ?? 'Leakage paths in a patterned oxide, height and current',
        about:
          options.hostile ?? 'An invented plan: height and current maps of test fields, for the tests of the report.',
        file: 'oxide-fields.yaml',
        sha256: SHA256,
        currency: 'EUR',
        cautions: ['laser', 'high-voltage', 'sharp-silicon', 'nanoparticles'],
        order: 'region-first',
        samples: ['1'],
        regions: Math.ceil(options.images / passes.length),
        passes,
        images: options.images,
        scanTime: options.images * 26 * 60,
        slidingPath: options.images * 2.05,
        instruments: 1,
        operators: 1,
        bookings: options.bookings ? 'Mo-Fr 09:00-17:00' : 'always',
      },
      seed: '1',
      replications: n,
      stopping: {
        rule: 'precision',
        text: 'Half-widths of all headline differences were at most 1 % after 400 replications.',
      },
      confidence: { level: 0.95, comparisons: Math.max(1, (names.length - 1) * COMPARED.length) },
      allocation: options.bookings ? { text: '4 sessions', unit: 'session', end: 3 * DAY + 8 * HOUR } : null,
      calendar: {
        startsAt: 9 * HOUR,
        sessions: Array.from({ length: options.bookings ? 60 : 0 }, (_, day) => ({
          start: day * DAY,
          end: day * DAY + 8 * HOUR,
        })),
      },
      strategies: names.map((name, place) => strategyOf(place, options, name, rows[place])),
      differences: differencesOf(names, rows),
      verdict,
      assumptions: assumptionsOf(options, verdict),
      parameterUncertainty: null,
      shown,
      warnings: decided ? [] : ['More than one new tip in ten would miss the accept of the pass “current”.'],
    },
    replications: rows.flat(),
  };
}

/** Three strategies, 48 images, office hours and a grant of four sessions. */
export const usualSample = (): ComparisonResult =>
  sampleComparison({ strategies: 3, images: 48, bookings: true, decided: false });
/** One strategy, booked always. */
export const singleSample = (): ComparisonResult => sampleComparison({ strategies: 1, images: 36, bookings: false });
/** Eight strategies, 3000 images. */
export const largeSample = (): ComparisonResult => sampleComparison({ strategies: 8, images: 3000, bookings: true });
