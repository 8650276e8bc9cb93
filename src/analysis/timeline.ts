import type { ImageDrift } from '../campaign/state.js';
import type { Take } from '../campaign/ledger.js';
import { SECOND } from '../kernel/clock.js';
import type { CampaignModel } from '../campaign/model.js';
import { regionText } from '../scenario/samples.js';
import type { RecordedStep, Recorder } from '../campaign/recorder.js';
import type { StepName } from '../campaign/steps.js';
import type { Tip } from '../probe/tip.js';
import { WEEKDAYS } from '../wording/phrases.js';
import { driftLine, type Started } from './drift-line.js';
import type { Segment, Timeline, TipStretch, TraceEvent } from './results.js';

/** Steps in words, as reports name them. */
export const STEP_WORDS: Readonly<Record<StepName | 'wait' | 'late review', string>> = {
  prepare: 'prepare the specimen',
  setUp: 'set up',
  warmUp: 'warm up',
  changeSample: 'change of sample',
  locate: 'locate',
  retract: 'retract',
  exchange: 'exchange the probe',
  align: 'align',
  resonance: 'find the resonance',
  approach: 'approach',
  relocate: 'relocate',
  settle: 'settle',
  offset: 'offset to a site',
  coarseMove: 'coarse move',
  chipExchange: 'exchange the chip',
  register: 'register',
  clean: 'clean the tip',
  recondition: 'recondition the tip',
  check: 'check the tip',
  review: 'review',
  scan: 'scan',
  wait: 'wait',
  'late review': 'late review',
};

/** A moment of the campaign's clock as people say it, such as `Mon 09:00:00`; from the second week with the week's number. */
export function clockText(microseconds: number): string {
  const seconds = Math.floor(microseconds / SECOND);
  const day = Math.floor(seconds / 86_400);
  const two = (value: number) => String(value).padStart(2, '0');
  const time = `${two(Math.floor(seconds / 3600) % 24)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
  const week = Math.floor(day / 7);
  return `${week === 0 ? '' : `week ${week + 1} `}${WEEKDAYS[day % 7]} ${time}`;
}

/** What drift did to an image, behind its quality; empty where nothing drifts. */
function driftText({ rate, displacement, quality }: ImageDrift): string {
  if (rate === 0) return '';
  return `, drift rate ${rate.toPrecision(3)} nm/s at its start, displacement ${displacement.toPrecision(3)} nm, q_drift ${quality.toFixed(4)}`;
}

export function stateOf(tip: Tip): TipStretch['state'] {
  if (tip.broken) return 'broken';
  if (tip.mark !== null) return tip.mark;
  if (tip.uncoated) return 'coating gone';
  if (tip.isBlunt) return 'blunt';
  return tip.isChipped ? 'chipped' : 'sound';
}

/** Steps told one by one; a longer campaign is told by activity, or its summary would grow without bound. */
const MOST_SEGMENTS = 2000;

/** Touching segments of one instrument, activity and tip as one. */
function joined(segments: Iterable<Segment>): readonly Segment[] {
  const result: Segment[] = [];
  const lastOf = new Map<number, number>();
  for (const segment of segments) {
    const index = lastOf.get(segment.instrument);
    const both = index === undefined ? null : asOne(result[index], segment);
    if (index !== undefined && both !== null) {
      result[index] = both;
    } else {
      lastOf.set(segment.instrument, result.length);
      result.push(segment);
    }
  }
  return result;
}

/** Null where they do not touch, or are not alike. */
function asOne(first: Segment, second: Segment): Segment | null {
  const areAlike =
    first.instrument === second.instrument &&
    first.activity === second.activity &&
    first.tip === second.tip &&
    first.end === second.start;
  return areAlike ? { ...first, end: second.end, step: second.activity, image: null } : null;
}

interface Stretch {
  readonly from: number;
  readonly tip: Tip;
  readonly state: TipStretch['state'];
}

/** Keeps what the timeline of one replication is made of. */
export class TimelineRecorder implements Recorder {
  /** A segment each step, and the take where it was a scan: whether that is kept is known at the end. */
  private readonly segments: Segment[] = [];
  private readonly takes: (Take | null)[] = [];
  private readonly stretches: TipStretch[] = [];
  private readonly current = new Map<number, Stretch>();
  /** By instrument. */
  private readonly disturbances = new Map<number, Started[]>();
  /** One text for each tip, not one for each of its steps. */
  private readonly names = new Map<Tip, string>();

  constructor(
    private readonly strategy: string,
    private readonly model: Pick<CampaignModel, 'start' | 'drift'>,
    /** Is told of changes of a tip's state. */
    private readonly tell: Recorder['event'] = () => undefined,
  ) {}

  step({ instrument, start, end, activity, step, tip, take, drift }: RecordedStep): void {
    this.add(
      {
        instrument,
        start: this.since(start),
        end: this.since(end),
        activity,
        step: STEP_WORDS[step],
        tip: tip === null ? null : this.nameOf(tip),
        image: take === null ? null : take.image.number + 1,
      },
      take,
    );
    if (drift === null) return;
    const started = this.disturbances.get(instrument) ?? [];
    this.disturbances.set(instrument, started);
    started.push({ ...drift, time: end });
  }

  /** A campaign told by activity has its steps joined at once, as there may be a million of them. */
  private add(segment: Segment, take: Take | null): void {
    const last = this.segments.length - 1;
    const isLong = last > MOST_SEGMENTS;
    const both = isLong && take === null && this.takes[last] === null ? asOne(this.segments[last], segment) : null;
    if (both !== null) {
      this.segments[last] = both;
    } else {
      this.segments.push(segment);
      this.takes.push(take);
    }
  }

  event(): void {
    // A timeline shows stretches of time alone.
  }

  tip(time: number, instrument: number, tip: Tip | null): void {
    const before = this.current.get(instrument);
    const state = tip === null ? null : stateOf(tip);
    if (before !== undefined && (before.tip !== tip || before.state !== state)) this.close(instrument, before, time);
    if (tip === null || state === null) this.current.delete(instrument);
    else if (before?.tip !== tip || before.state !== state) {
      this.current.set(instrument, { from: time, tip, state });
      if (before?.tip === tip)
        this.tell(time, instrument, 'tip', `${this.nameOf(tip)}: ${state}, apex radius ${tip.radius.toFixed(1)} nm`);
    }
  }

  timeline(): Timeline {
    const segments = this.judged();
    return {
      strategy: this.strategy,
      segments: this.segments.length > MOST_SEGMENTS ? joined(segments) : [...segments],
      tips: this.stretches,
      ...this.drift(),
    };
  }

  private drift(): Pick<Timeline, 'drift'> {
    const { drift, start } = this.model;
    if (drift === null) return {};
    const ends = new Map<number, number>();
    for (const { instrument, end } of this.segments) ends.set(instrument, Math.max(end, ends.get(instrument) ?? 0));
    const stretches = [...ends].flatMap(([instrument, end]) =>
      driftLine(drift.course, this.disturbances.get(instrument) ?? [], start, start + end * SECOND).map((stretch) => ({
        instrument,
        start: this.since(stretch.start),
        end: this.since(stretch.end),
        rate: stretch.rate,
      })),
    );
    return { drift: stretches };
  }

  nameOf(tip: Tip): string {
    const known = this.names.get(tip) ?? `${tip.kind.name} ${tip.number + 1}`;
    this.names.set(tip, known);
    return known;
  }

  since(microseconds: number): number {
    return (microseconds - this.model.start) / SECOND;
  }

  private close(instrument: number, { from, tip, state }: Stretch, time: number): void {
    this.stretches.push({
      instrument,
      start: this.since(from),
      end: this.since(time),
      tip: this.nameOf(tip),
      state,
      radius: tip.radius,
    });
  }

  /** The segments, scans that came to nothing told apart. */
  private *judged(): Generator<Segment> {
    const kept = this.keptTakes();
    for (const [place, segment] of this.segments.entries()) {
      const take = this.takes[place];
      yield take === null || kept.has(take) ? segment : { ...segment, activity: 'scanning lost' };
    }
  }

  /** Of each image the last take that is neither flagged nor void. */
  private keptTakes(): ReadonlySet<Take> {
    const kept = new Map<number, Take>();
    for (const take of this.takes) {
      if (take !== null && take.flaggedAt === null && take.voidAt === null) kept.set(take.image.number, take);
    }
    return new Set(kept.values());
  }
}

/** Keeps everything that happens in one replication, for its timeline and its event log. */
export class Chronicle implements Recorder {
  private readonly events: TraceEvent[] = [];
  private readonly line: TimelineRecorder;

  private readonly samples: CampaignModel['samples'];

  constructor(strategy: string, model: Pick<CampaignModel, 'start' | 'samples' | 'drift'>) {
    this.samples = model.samples;
    this.line = new TimelineRecorder(strategy, model, (...what) => {
      this.event(...what);
    });
  }

  step(record: RecordedStep): void {
    this.line.step(record);
    const { take } = record;
    const image =
      take === null
        ? ''
        : `image ${take.image.number + 1} (${regionText(this.samples, take.image)}, ${take.image.pass.demand.pass.name}), attempt ${take.running + 1}, quality ${take.quality.toFixed(4)}${driftText(take.drift)}`;
    const details = [
      `${(record.end - record.start) / SECOND} s`,
      record.step === 'wait' ? record.activity : image,
      record.tip === null ? '' : this.line.nameOf(record.tip),
    ];
    this.event(
      record.start,
      record.instrument,
      STEP_WORDS[record.step],
      details.filter((detail) => detail !== '').join('; '),
    );
  }

  event(time: number, instrument: number, what: string, detail: string): void {
    this.events.push({ time: this.line.since(time), clock: clockText(time), instrument, what, detail });
  }

  tip(time: number, instrument: number, tip: Tip | null): void {
    this.line.tip(time, instrument, tip);
  }

  timeline(): Timeline {
    return this.line.timeline();
  }

  /** Everything in order of time; what starts at one time stays in the order in which it was told. */
  log(): readonly TraceEvent[] {
    return [...this.events].sort((a, b) => a.time - b.time);
  }
}
