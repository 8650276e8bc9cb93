import { ACTIVITIES } from '../campaign/activities.js';
import type { Outcome } from '../campaign/outcome.js';
import { type TimePart, TIME_PARTS } from '../campaign/time-parts.js';
import { SECOND } from '../kernel/clock.js';
import { type Measure, MEASURES, perMeasure } from './results.js';
import type { Batch, SumsOfBatch } from './work/batch.js';
import { Columns, type Row } from './work/columns.js';
import type { Wants } from './work/order.js';
import { Sums } from './work/sums.js';

/** A column for each measure. */
export type MeasureColumns = Readonly<Record<Measure, Float64Array>>;

/** What is read of replications. */
export type Campaigns = Pick<Collector, 'count' | 'values' | 'finishedAt' | 'column' | 'timeOn'>;

/**
 * All replications of one strategy, measure by measure: added one by one, or appended in batches, which comes to the same
 * numbers exactly. Memory grows with measures × replications and with images, not with their product.
 */
export class Collector {
  /** Of each image, each activity and each way of tips; nothing where they are not wanted. */
  readonly sums = new Sums();
  private shown: MeasureColumns | null = null;
  private mark: { readonly count: number; readonly sums: SumsOfBatch } | null = null;

  /** @param wants what is kept of each replication beside its measures */
  constructor(
    protected readonly wants: Wants = {},
    private readonly columns = new Columns(),
  ) {}

  get count(): number {
    return this.columns.count;
  }

  /** Every measure of every replication; replication `i` stands at index `i - 1`. They do not grow with what comes later. */
  get values(): MeasureColumns {
    if (this.shown === null || this.shown.totalTime.length !== this.count)
      this.shown = perMeasure((measure) => this.columns.of(measure));
    return this.shown;
  }

  /** Any column by its name, see `Batch`; empty where it was not wanted. */
  column(name: string): Float64Array {
    return this.columns.of(name);
  }

  /** Seconds from the start to the end of the last step of each replication; NaN where it was not finished. */
  get finishedAt(): Float64Array {
    return this.columns.of('finishedAt');
  }

  /** Seconds of the instrument time that went to a part of each replication; empty where that was not wanted. */
  timeOn(part: TimePart): Float64Array {
    return this.columns.of(timeColumn(part));
  }

  /** Seconds that went to each activity, in the order of ACTIVITIES. */
  get split(): readonly number[] {
    return ACTIVITIES.map((_, activity) => this.sums.seconds(activity));
  }

  /** Says how many replications there will be, as far as is known, which spares memory. */
  reserve(replications: number): void {
    this.columns.reserve(replications);
  }

  /** @param more further columns of this replication */
  add(outcome: Outcome, more: Row = {}): void {
    this.columns.add({ ...rowOf(outcome, this.wants), ...more });
    if (this.wants.sums === true) this.sums.add(outcome);
  }

  /** Replications that follow upon those here. */
  append({ count, columns, sums }: Batch): void {
    this.columns.append(count, columns);
    if (sums !== null) this.sums.append(sums);
  }

  /** Remembers how many there are, if it has not been asked to before. */
  setMark(): void {
    this.mark ??= { count: this.count, sums: this.sums.copy() };
  }

  /** Those that there were at the mark; all of them where none was set. */
  get toMark(): Collector {
    if (this.mark === null) return this;
    const first = this.cutTo(this.mark.count);
    first.sums.append(this.mark.sums);
    return first;
  }

  /** The first replications alone, so many of them. */
  upTo(count: number): Campaigns {
    return this.cutTo(count);
  }

  /** Everything so far as plain data. */
  batch(): Batch {
    return {
      count: this.count,
      columns: this.columns.copy(),
      sums: this.wants.sums === true ? this.sums.copy() : null,
    };
  }

  /** The first replications without their sums, which are not kept one by one. */
  private cutTo(count: number): Collector {
    return new Collector(this.wants, this.columns.first(count));
  }
}

function timeColumn(part: TimePart): string {
  return `time: ${part}`;
}

function rowOf(outcome: Outcome, { cut, cutAfter, timeParts, tipsOf }: Wants): Row {
  const row: Record<string, number> = {};
  for (const measure of MEASURES) row[measure] = outcome[measure];
  row['finishedAt'] = outcome.isFinished ? outcome.totalTime : NaN;
  if (cut === true && outcome.cut !== null) Object.assign(row, cutOf(outcome.cut));
  cutAfter?.forEach((_, place) => {
    const { yield: gained, missing } = outcome.cuts[place];
    Object.assign(row, { [`cutYield ${place}`]: gained, [`cutMissing ${place}`]: missing });
  });
  if (timeParts === true)
    TIME_PARTS.forEach((part, number) => {
      row[timeColumn(part)] = outcome.timeParts[number] / SECOND;
    });
  for (const kind of tipsOf ?? [])
    row[`tips of ${kind}`] = outcome.tipRecords.filter((record) => record.kind === kind).length;
  return row;
}

function cutOf({ isFinished, ...tally }: NonNullable<Outcome['cut']>): Row {
  return {
    cutFinished: isFinished ? 1 : 0,
    cutYield: tally.yield,
    cutSilentBadShare: tally.silentBadShare,
    cutMissing: tally.missing,
    cutTips: tally.tips,
  };
}
