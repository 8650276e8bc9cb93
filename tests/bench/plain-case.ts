import { readFileSync } from 'node:fs';
import type { Baseline, Ran } from './baselines.js';
import { beside, type Job, MEASURES, type Measure, measure, type Measured, type Slice } from './job.js';
import { apart, pooled, rate, type Sample, type Spread, spreadOf } from './spread.js';

export const PLAIN = readFileSync(beside('plain.yaml'), 'utf8');

/** Rounds in which the programs take turns. */
const ROUNDS = 6;
/** Campaigns of ours in a round. */
const CAMPAIGNS = 8000;

/** What the targets say of ours over a baseline, in campaigns per second of one thread. */
export const TARGETS: Readonly<Record<string, number>> = { SimPy: 25, 'keyed JavaScript': 0.55, 'C++': 0.35 };

/** One program's part in the comparison. */
export interface Program {
  readonly name: string;
  /** Campaigns per second of the processor and of the clock, a value a round. */
  readonly perUser: Spread;
  readonly perWall: Spread;
  /** Ours over this one, round by round; null for ours. */
  readonly ratio: Spread | null;
  readonly ratioByWall: Spread | null;
  readonly means: Readonly<Record<Measure, Sample>>;
}

export interface PlainCase {
  readonly rounds: number;
  readonly programs: readonly Program[];
  /** The two programs whose means lie furthest apart, by measure, in standard errors of their difference. */
  readonly furthest: Readonly<Record<Measure, number>>;
  readonly eventsPerCampaign: number;
  /** Draws of a campaign of ours, and what share of its time they take by themselves, a value a round. */
  readonly draws: { readonly perCampaign: number; readonly share: Spread };
}

/** A job on the plain case, or one like it. */
export function jobOn(text: string, more: Partial<Job> = {}): Job {
  return {
    ...{ text, strategy: 0, warmUpSeconds: 1, slices: 3, slice: { seconds: 0.7 }, first: 1 },
    ...{ countedCampaigns: 20, isDrawnAlone: false },
    ...more,
  };
}

/** Runs ours and the baselines in turn, so that what slows the machine down for a while slows all of them. */
export function comparePlainCase(baselines: readonly Baseline[], tell: (what: string) => void): PlainCase {
  const ours: Measured[] = [];
  const others = baselines.map((baseline) => ({ baseline, ran: Array<Ran>() }));
  for (let round = 0; round < ROUNDS; round += 1) {
    tell(`plain case, round ${round + 1} of ${ROUNDS}`);
    const first = 1 + round * CAMPAIGNS;
    const slice = { campaigns: CAMPAIGNS };
    ours.push(measure(jobOn(PLAIN, { slices: 1, slice, first, countedCampaigns: 100, isDrawnAlone: true })));
    for (const { baseline, ran } of others) ran.push(baseline.run(round + 1));
  }
  const slices = ours.map((one) => one.slices[0]);
  const programs = [
    programOf('ours', slices, ours.map(samplesOf), null),
    ...others.map(({ baseline, ran }) => programOf(baseline.name, ran, ran.map(samplesOf), slices)),
  ];
  return {
    rounds: ROUNDS,
    programs,
    furthest: perMeasure((name) =>
      Math.max(0, ...programs.flatMap((a) => programs.map((b) => (a === b ? 0 : apart(a.means[name], b.means[name]))))),
    ),
    eventsPerCampaign: ours[0].eventsPerCampaign,
    draws: { perCampaign: ours[0].draws?.perCampaign ?? 0, share: spreadOf(ours.map(shareOfDraws)) },
  };
}

function shareOfDraws({ slices, draws }: Measured): number {
  return (draws?.seconds ?? 0) * rate(slices[0]);
}

function programOf(
  name: string,
  slices: readonly Slice[],
  samples: readonly Readonly<Record<Measure, Sample>>[],
  ours: readonly Slice[] | null,
): Program {
  const byWall = ({ campaigns, seconds }: Slice) => campaigns / seconds.wall;
  const ratio = (speed: (slice: Slice) => number) =>
    ours === null ? null : spreadOf(slices.map((slice, round) => speed(ours[round]) / speed(slice)));
  return {
    name,
    perUser: spreadOf(slices.map(rate)),
    perWall: spreadOf(slices.map(byWall)),
    ratio: ratio(rate),
    ratioByWall: ratio(byWall),
    means: perMeasure((measure) => pooled(samples.map((sample) => sample[measure]))),
  };
}

/** The means of a run, with how many campaigns they are of. */
function samplesOf(run: Measured | Ran): Readonly<Record<Measure, Sample>> {
  const count = 'slices' in run ? run.slices.reduce((sum, slice) => sum + slice.campaigns, 0) : run.campaigns;
  return perMeasure((measure) => ({ count, ...run.means[measure] }));
}

function perMeasure<Value>(of: (measure: Measure) => Value): Readonly<Record<Measure, Value>> {
  const [totalTime, yieldOf, tips, takes, undetectedBadShare] = MEASURES.map(of);
  return { totalTime, yield: yieldOf, tips, takes, undetectedBadShare };
}
