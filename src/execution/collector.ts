import { ACTIVITIES } from '../campaign/activities.js';
import type { Outcome } from '../campaign/outcome.js';
import { type TimePart, TIME_PARTS } from '../campaign/time-parts.js';
import { SECOND } from '../kernel/clock.js';
import { type Measure, MEASURES, perMeasure } from './measures.js';
import type { Batch, SumsOfBatch } from './batch.js';
import { Columns, type Row } from './columns.js';
import type { Wants } from './batch.js';
import { Sums } from './sums.js';

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
  /** How the columns are read, with their names, and the numbers of the replication added last; worked out at the first. */
  private readers: readonly Reader[] | null = null;
  private names: readonly string[] = NONE;
  private numbers = new Float64Array(0);
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
  add(outcome: Outcome, more: Row = NOTHING): void {
    this.readers ??= readersOf(outcome, this.wants);
    const { readers } = this;
    const further = more === NOTHING ? NONE : Object.values(more);
    if (this.numbers.length !== readers.length + further.length || further.length > 0) {
      this.names = [...readers.map(({ name }) => name), ...Object.keys(more)];
      this.numbers = new Float64Array(this.names.length);
    }
    const { numbers } = this;
    for (let i = 0; i < readers.length; i += 1) numbers[i] = readers[i].read(outcome);
    numbers.set(further, readers.length);
    this.columns.addNumbers(this.names, numbers);
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

/** A column of replications. */
interface Reader {
  readonly name: string;
  readonly read: (outcome: Outcome) => number;
}

const NOTHING: Row = {};
const NONE: readonly never[] = [];

/** What is read of each replication of a strategy, given one of them. */
function readersOf({ cut }: Outcome, { cut: isCut, cutAfter, timeParts, tipsOf }: Wants): readonly Reader[] {
  const measures = MEASURES.map((measure): Reader => ({ name: measure, read: (outcome) => outcome[measure] }));
  const places = Array.from(cutAfter ?? [], (_, place) => place);
  const parts = timeParts === true ? TIME_PARTS : [];
  return [
    ...measures,
    { name: 'finishedAt', read: ({ isFinished, totalTime }) => (isFinished ? totalTime : NaN) },
    ...(isCut === true && cut !== null ? CUT : []),
    ...places.flatMap((place): Reader[] => [
      { name: `cutYield ${place}`, read: ({ cuts }) => cuts[place].yield },
      { name: `cutMissing ${place}`, read: ({ cuts }) => cuts[place].missing },
    ]),
    ...parts.map((part, number): Reader => ({
      name: timeColumn(part),
      read: (outcome) => outcome.timeParts[number] / SECOND,
    })),
    ...(tipsOf ?? []).map((kind): Reader => ({
      name: `tips of ${kind}`,
      read: ({ tipRecords }) => tipRecords.filter((record) => record.kind === kind).length,
    })),
  ];
}

type Cut = NonNullable<Outcome['cut']>;

function cutReader(name: string, read: (cut: Cut) => number): Reader {
  return { name, read: ({ cut }) => (cut === null ? NaN : read(cut)) };
}

/** Of the experiment cut at the end of the granted time. */
const CUT: readonly Reader[] = [
  cutReader('cutFinished', ({ isFinished }) => (isFinished ? 1 : 0)),
  cutReader('cutYield', (cut) => cut.yield),
  cutReader('cutSilentBadShare', (cut) => cut.undetectedBadShare),
  cutReader('cutMissing', (cut) => cut.missing),
  cutReader('cutTips', (cut) => cut.tips),
];
