import { CampaignRunner } from '../campaign/campaign.js';
import { type CampaignModel, compileModel } from '../campaign/model.js';
import type { Outcome } from '../campaign/outcome.js';
import type { LuckTable } from '../chance/luck.js';
import { microseconds } from '../kernel/clock.js';
import type { Strategy } from '../scenario/load.js';

/** A strategy ready to be run. */
export interface Runnable {
  readonly name: string;
  readonly model: CampaignModel;
}

/** Models by the settings they were made of: the same strategies are ordered again and again. */
const models = new WeakMap<Strategy['settings'], Map<Strategy['workflow'], CampaignModel>>();

function modelOf({ workflow, settings }: Strategy): CampaignModel {
  const known = models.get(settings) ?? new Map<Strategy['workflow'], CampaignModel>();
  models.set(settings, known);
  const model = known.get(workflow) ?? compileModel(workflow, settings);
  known.set(workflow, model);
  return model;
}

export function runnable(strategies: readonly Strategy[]): readonly Runnable[] {
  return strategies.map((strategy) => ({ name: strategy.name, model: modelOf(strategy) }));
}

/** The same with campaigns that are told, too, as if they were cut at the end of each of so many booked seconds. */
export function withCuts({ name, model }: Runnable, after: readonly number[] = []): Runnable {
  const { bookings, start } = model;
  return { name, model: { ...model, cutsAt: after.map((time) => bookings.afterOpen(start, microseconds(time))) } };
}

/** A strategy that is ready to be run, as the plain data that it was made of. */
export function plain({ name, model: { workflow, settings } }: Runnable): Strategy {
  return { name, workflow, settings };
}

const RUNNERS = new WeakMap<CampaignModel, CampaignRunner>();

function runnerOf(model: CampaignModel): CampaignRunner {
  const runner = RUNNERS.get(model) ?? new CampaignRunner(model);
  RUNNERS.set(model, runner);
  return runner;
}

/** One replication of one strategy. Replications are numbered from 1; an error inside says which one it was. */
export function replicate({ name, model }: Runnable, table: LuckTable, replication: number): Outcome {
  try {
    return runnerOf(model).run(table.replication(replication));
  } catch (error) {
    throw new Error(`strategy ${name}, replication ${replication} failed`, { cause: error });
  }
}
