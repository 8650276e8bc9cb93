import type { Strategy } from '../scenario/load.js';
import { regionCount } from '../scenario/samples.js';
import { continuations, type ContinuationsExperiment } from './experiments/continuations.js';
import { drawn, type DrawnExperiment } from './experiments/drawn.js';
import { strategies, type StrategiesExperiment } from './experiments/strategies.js';
import type { Wants } from './batch.js';
import type { ExperimentKind, Runner } from './runner.js';

/** Every kind of experiments by its name; a new one is a file in `experiments/`, a line here and its name below. */
interface Experiments {
  readonly strategies: StrategiesExperiment;
  readonly drawn: DrawnExperiment;
  readonly continuations: ContinuationsExperiment;
}
type Kind = keyof Experiments;

const KINDS: { readonly [K in Kind]: ExperimentKind<Experiments[K]> } = { strategies, drawn, continuations };

/** Campaigns to be run, as plain data. */
export type Experiment<Some extends Kind = Kind> = { [K in Some]: { readonly kind: K } & Experiments[K] }[Some];

export function runnerOf<K extends Kind>(experiment: Experiment<K>, seed: string, wants: Wants): Runner {
  const kind: K = experiment.kind;
  return KINDS[kind].runnerOf(experiment, seed, wants);
}

/** Strategies of an experiment, in the order of its results. */
export function strategiesOf<K extends Kind>(experiment: Experiment<K>): readonly Strategy[] {
  const kind: K = experiment.kind;
  return KINDS[kind].strategiesOf(experiment);
}

/** Images that are planned in one replication of all strategies of an experiment. */
export function imagesOf(experiment: Experiment): number {
  const plans = strategiesOf(experiment).map(({ settings }) => settings.plan);
  return plans.reduce((sum, plan) => sum + regionCount(plan) * plan.passes.length, 0);
}
