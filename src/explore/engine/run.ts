import type { Batch } from '../../execution/batch.js';
import { Collector } from '../../execution/collector.js';
import { runJob } from '../../execution/in-process.js';
import { type Job, type JobResult, replicationsOf, type Task } from '../../execution/job.js';
import type { Work } from '../../execution/work.js';
import type { Strategy } from '../../scenario/load.js';
import type { KnownCampaigns } from './known-campaigns.js';
import { stagesUpTo } from './stages.js';

/** Milliseconds for which the worker hears nothing. */
const SLICE = 25;

/** Lets messages in. Throws where what is under way is wanted no more. */
export type Breathe = () => Promise<void>;

/** Carries studies out in slices, so that a change is heard at once. */
export class SlicedRun {
  private since = performance.now();
  /** Milliseconds of a replication, as the last slice had it. */
  private readonly paces = new WeakMap<Job['experiment'], number>();

  constructor(
    private readonly known: KnownCampaigns,
    private readonly breathe: Breathe,
  ) {}

  /** What a study comes to. @throws what `breathe` throws */
  async resultOf<Result>(work: Work<Result>): Promise<Result> {
    for (let step = work.next(false); ; step = work.next(false)) {
      if (step.done === true) return step.value;
      for (const task of step.value) await this.carryOut(task);
    }
  }

  private async carryOut({ job, take }: Task): Promise<void> {
    const { experiment } = job;
    if (experiment.kind !== 'strategies' || job.from !== 1 || job.wants.sums !== true) {
      await this.inSlices(job, take);
      return;
    }
    for (const part of stagesOf(job)) {
      const batches: Batch[] = [];
      for (const strategy of experiment.strategies) batches.push(await this.batchOf(strategy, part));
      take(batches);
    }
  }

  /** Campaigns of one strategy, which do not hang on those beside it. */
  private async batchOf(strategy: Strategy, part: Job): Promise<Batch> {
    const known = this.known.find(strategy, part);
    if (known !== null) return known;
    const collector = new Collector(part.wants);
    await this.inSlices({ ...part, experiment: { kind: 'strategies', strategies: [strategy] } }, ([batch]) => {
      collector.append(batch);
    });
    const batch = collector.batch();
    this.known.keep(strategy, part, batch);
    return batch;
  }

  private async inSlices(job: Job, take: (result: JobResult) => void): Promise<void> {
    for (let from = job.from; from <= job.to;) {
      const begun = performance.now();
      const left = SLICE - (begun - this.since);
      const pace = this.paces.get(job.experiment);
      const length = pace === undefined ? 1 : Math.max(1, Math.floor(left / pace));
      const slice = { ...job, from, to: Math.min(job.to, from + length - 1) };
      take(runJob(slice));
      const now = performance.now();
      this.paces.set(job.experiment, Math.max(0.01, (now - begun) / replicationsOf(slice)));
      from = slice.to + 1;
      if (now - this.since < SLICE) continue;
      await this.breathe();
      this.since = performance.now();
    }
  }
}

/** A job that begins with the first replication, cut where figures are shown. */
function stagesOf(job: Job): readonly Job[] {
  const ends = stagesUpTo(job.to);
  return ends.map((to, place) => ({ ...job, from: place === 0 ? 1 : ends[place - 1] + 1, to }));
}
