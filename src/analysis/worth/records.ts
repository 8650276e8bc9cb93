import { ln } from '../../chance/elementary.js';
import { compileDuration, secondsAt } from '../../chance/duration.js';
import { compileLife, type LifeDistribution } from '../../chance/life.js';
import { type Luck, LuckTable, PURPOSES } from '../../chance/luck.js';
import { drawing } from '../../scenario/draw.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { exposurePerScan } from '../../probe/scan-load.js';
import { pathOf, scanTimeOf } from '../../probe/scan-load.js';
import type { Hazard, Scenario, WorkflowName } from '../../scenario/schema/scenario.js';
import { durationOf, type Step } from '../../scenario/schema/steps.js';
import type { UnknownInput } from '../../scenario/uncertainty.js';
import { average } from '../../statistics/numbers.js';

/** Records that could be kept, made up from each draw as if they had been. */
export interface MadeRecords {
  readonly path: string;
  readonly what: 'tips' | 'timings';
  readonly of: string;
  /** By number of records: summaries of them, each draw by draw. */
  readonly summaries: ReadonlyMap<number, readonly Float64Array[]>;
}

/** So many more are tried. */
export const COUNTS: readonly number[] = [5, 10, 20, 50];
const MOST = Math.max(...COUNTS);

const TIMES = ['fixed', 'usual', 'mode'];

/** A step of a workflow whose time is uncertain. */
interface TimedStep {
  readonly path: string;
  readonly description: string;
  readonly workflow: WorkflowName;
  readonly name: string;
}

/**
 * Logs of tips, kind by kind, and timed steps: what they would say, were each draw the truth. Of a log it is kept, hazard by
 * hazard, the logarithm of events per image of use, half an event added, since a tip's first event ends it and says of the other
 * hazards only that they took longer; of timings the mean of the logarithms.
 */
export function makeRecords(
  loaded: LoadedScenario,
  inputs: readonly UnknownInput[],
  seed: string,
  draws: number,
): readonly MadeRecords[] {
  const kinds = Object.keys(loaded.base.tips).filter((kind) => hazardsOf(loaded, inputs, kind).length > 0);
  const steps = timedSteps(inputs);
  const logs = kinds.map((kind) => ({ kind, watched: hazardsOf(loaded, inputs, kind), summaries: empty() }));
  const timings = steps.map((step) => ({ step, summaries: empty() }));
  const table = new LuckTable(seed);
  const drawnBy = drawing(loaded, inputs);
  for (let draw = 0; draw < draws; draw += 1) {
    const luck = table.replication(draw + 1);
    const { base } = drawnBy(luck);
    logs.forEach(({ kind, watched, summaries }, place) => {
      const { hazards } = base.tips[kind];
      const distributions = hazards.map(({ life }) => compileLife(life));
      const perImage = hazards.map((hazard) => exposurePerImage(base, kind, hazard));
      const uniform = (tip: number, hazard: number) => luck.uniform(PURPOSES.madeRecords, place, hazard, tip, 0);
      logOf(distributions, watched, perImage, uniform).forEach((rates, count) => {
        put(summaries, count, draw, draws, rates);
      });
    });
    timings.forEach(({ step, summaries }, place) => {
      const times = timesOf(base, step, luck, place);
      for (const count of COUNTS) {
        const mean = times.slice(0, count).reduce((sum, time) => sum + ln(Math.max(time, SHORTEST)), 0) / count;
        put(summaries, count, draw, draws, [mean]);
      }
    });
  }
  return [
    ...logs.map(({ kind, summaries }): MadeRecords => ({
      path: `tips.${kind}.hazards`,
      what: 'tips',
      of: `${kind} tips`,
      summaries,
    })),
    ...timings.map(({ step, summaries }): MadeRecords => ({
      path: step.path,
      what: 'timings',
      of: step.description,
      summaries,
    })),
  ];
}

/** Seconds; a step that takes no time has no logarithm. */
const SHORTEST = 1e-3;

function empty(): Map<number, Float64Array[]> {
  return new Map(COUNTS.map((count) => [count, []]));
}

function put(
  summaries: Map<number, Float64Array[]>,
  count: number,
  draw: number,
  draws: number,
  values: readonly number[],
): void {
  const columns = summaries.get(count) ?? [];
  values.forEach((value, i) => {
    columns[i] ??= new Float64Array(draws);
    columns[i][draw] = value;
  });
  summaries.set(count, columns);
}

/** Hazards of a kind of which something is uncertain, by their places. */
function hazardsOf({ base }: LoadedScenario, inputs: readonly UnknownInput[], kind: string): readonly number[] {
  const places = inputs.flatMap(({ parameters }) =>
    parameters.flatMap(({ found: { path } }) =>
      path[0] === 'tips' && path[1] === kind && path[2] === 'hazards' && path[4] === 'life' ? [Number(path[3])] : [],
    ),
  );
  return base.tips[kind].hazards.flatMap((_, index) => (places.includes(index) ? [index] : []));
}

/** Events per image of use, by hazard, after so many tips: the first event of any hazard ends a tip. */
function logOf(
  distributions: readonly LifeDistribution[],
  watched: readonly number[],
  perImage: readonly number[],
  uniform: (tip: number, hazard: number) => number,
): ReadonlyMap<number, readonly number[]> {
  const events = distributions.map(() => 0);
  let images = 0;
  const found = new Map<number, readonly number[]>();
  for (let tip = 0; tip < MOST; tip += 1) {
    const ends = distributions.map(
      (distribution, hazard) => distribution.exposureAt(-ln(uniform(tip, hazard))) / perImage[hazard],
    );
    const first = ends.reduce((best, end, hazard) => (end < ends[best] ? hazard : best), 0);
    events[first] += 1;
    images += ends[first];
    if (COUNTS.includes(tip + 1))
      found.set(
        tip + 1,
        watched.map((hazard) => ln((events[hazard] + 0.5) / images)),
      );
  }
  return found;
}

/** How much exposure an image of a kind adds to a hazard on average; in region-first, one approach serves all passes of a region. */
function exposurePerImage({ plan, pace }: Scenario, kind: string, hazard: Hazard): number {
  const passes = plan.passes.filter(({ tip }) => tip === kind);
  const exposures = passes.map((pass, index) =>
    exposurePerScan(
      hazard,
      { pass: index, scanTime: scanTimeOf(pass, pace.scan), path: pathOf(pass), load: pass.load },
      pace,
    ),
  );
  const mean = average(exposures);
  return hazard.per === 'approach' && plan.order === 'region-first' ? mean / passes.length : mean;
}

function timedSteps(inputs: readonly UnknownInput[]): readonly TimedStep[] {
  return inputs.flatMap(({ path, description, parameters: [{ found }] }) => {
    const [first, workflow, third, name, time] = found.path;
    const isTime = first === 'workflows' && third === 'steps' && TIMES.includes(String(time));
    return isTime && (workflow === 'swap' || workflow === 'hop')
      ? [{ path, description, workflow, name: String(name) }]
      : [];
  });
}

/** Seconds that a step took, so many times. */
function timesOf({ workflows }: Scenario, { workflow, name }: TimedStep, luck: Luck, place: number): readonly number[] {
  const step = new Map<string, Step>(Object.entries(workflows[workflow].steps)).get(name);
  const duration = step === undefined ? null : durationOf(step);
  if (duration === null) return [];
  const times = compileDuration(duration);
  return Array.from({ length: MOST }, (_, time) =>
    secondsAt(times, luck.uniform(PURPOSES.madeRecords, place, TIMINGS, time, 0)),
  );
}

/** Keeps draws of timings apart from those of hazards. */
const TIMINGS = 0xffff;
