import { LuckTable } from '../../chance/luck.js';
import { Columns } from '../../execution/columns.js';
import type { Wants } from '../../execution/batch.js';
import type { JobResult, Task } from '../../execution/job.js';
import { completed, type Work } from '../../execution/work.js';
import { assumedInputs } from '../../scenario/assumed-inputs.js';
import { drawerOf } from '../../scenario/draw.js';
import type { LoadedScenario } from '../../scenario/load.js';
import type { UnknownInput } from '../../scenario/uncertainty.js';
import type { Numbers } from '../../statistics/numbers.js';
import { nestedVariance } from '../../statistics/nested-variance.js';

/** How many draws, and replications of each: draw 1 has the first ones, draw 2 the next, and so on. */
export interface DrawSize {
  readonly draws: number;
  readonly replications: number;
}

/** Draws of what is uncertain. */
export interface Draws {
  readonly inputs: readonly UnknownInput[];
  /** Values by input and parameter that is drawn of itself, draw by draw, each in one unit of its own. */
  readonly values: readonly (readonly Float64Array[])[];
  readonly size: DrawSize;
}

/** Replications of each draw: more draws tell more than more replications of each, whose noise the regression takes out. */
export const REPLICATIONS = 4;

/** All that is uncertain in a scenario: what says so itself, and what is only assumed; with `isAll` also what has a source. */
export function uncertainIn(loaded: LoadedScenario, isAll = false): readonly UnknownInput[] {
  return [...loaded.inputs, ...assumedInputs(loaded, isAll)];
}

/** What is to be run on draws. */
export interface ToDraw {
  /** Whose inputs are drawn, and whose strategies are run. */
  readonly loaded: LoadedScenario;
  readonly names: readonly string[];
  readonly inputs: readonly UnknownInput[];
  readonly seed: string;
  readonly size: DrawSize;
  /** Columns that are kept of each replication. */
  readonly kept: readonly string[];
  readonly wants?: Wants;
}

/** Runs strategies on each draw: columns of each, replication after replication. */
export function* campaignsOnDraws(
  { loaded, names, inputs, seed, size, kept, wants = {} }: ToDraw,
  over: (tasks: readonly Task[]) => Iterable<Task>,
): Work<readonly Columns[]> {
  const found = names.map(() => new Columns());
  const experiment = {
    kind: 'drawn' as const,
    scenario: loaded,
    inputs: inputs.map(({ path }) => path),
    perDraw: size.replications,
    parts: names.map((name) => ({ name, over: {} })),
  };
  const take = (result: JobResult) => {
    result.forEach(({ count, columns }, part) => {
      found[part].append(count, Object.fromEntries(kept.map((name) => [name, columns[name]])));
    });
  };
  yield* completed(over([{ job: { experiment, seed, from: 1, to: size.draws * size.replications, wants }, take }]));
  return found;
}

/** What the inputs are drawn to with random numbers of this seed, which hangs on their paths and the number of the draw alone. */
export function drawsOf(inputs: readonly UnknownInput[], seed: string, size: DrawSize): Draws {
  const { draws } = size;
  const table = new LuckTable(seed);
  const drawers = inputs.map((input) => ({ drawnBy: drawerOf(input), places: placesOf(input) }));
  const values = drawers.map(({ places }) => places.map(() => new Float64Array(draws)));
  for (let draw = 1; draw <= draws; draw += 1) {
    const luck = table.replication(draw);
    drawers.forEach(({ drawnBy, places }, input) => {
      const drawn = drawnBy(luck);
      places.forEach((parameter, column) => {
        values[input][column][draw - 1] = drawn[parameter].value;
      });
    });
  }
  return { inputs, values, size };
}

/** Numbers of the columns of each input, where the columns of all stand in one row. */
export function columnsOfEach({ values }: Pick<Draws, 'values'>): readonly (readonly number[])[] {
  let next = 0;
  return values.map((columns) => columns.map(() => next++));
}

/** Places of the parameters that do not only follow another, as a step's spread does and the same value of the other workflow. */
function placesOf({ parameters }: UnknownInput): readonly number[] {
  const key = ({ draw }: UnknownInput['parameters'][number]) => `${draw.index} ${draw.path}`;
  const keys = parameters.map(key);
  return keys.flatMap((each, place) => (keys.indexOf(each) === place ? [place] : []));
}

/** The mean of each draw. */
export function meansOf(values: Numbers, { draws, replications }: DrawSize): Float64Array {
  const means = new Float64Array(draws);
  for (let draw = 0; draw < draws; draw += 1) {
    let sum = 0;
    for (let i = draw * replications; i < (draw + 1) * replications; i += 1) sum += values[i];
    means[draw] = sum / replications;
  }
  return means;
}

/** The replications of each draw by themselves: the mean of each draw, and the variance that so few replications leave in it. */
export function nestedIn(values: Numbers, { draws, replications }: DrawSize) {
  const all = Array.from(values);
  const groups = Array.from({ length: draws }, (_, draw) => all.slice(draw * replications, (draw + 1) * replications));
  const nested = nestedVariance(groups);
  return { nested, noise: nested.within / replications };
}
