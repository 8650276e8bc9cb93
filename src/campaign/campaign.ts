import type { Luck } from '../chance/luck.js';
import { SECOND } from '../kernel/clock.js';
import { Simulation } from '../kernel/simulation.js';
import type { Advisor } from './advisor.js';
import { CampaignContext } from './context.js';
import { proceduresOf } from './procedures.js';
import { Workplace } from './workplace.js';
import { Ledger } from './ledger.js';
import { Measuring } from './measuring.js';
import type { CampaignModel } from './model.js';
import { type Outcome, outcomeOf } from './outcome.js';
import { RANK } from './ranks.js';
import { Pool } from './pool.js';
import type { Recorder } from './recorder.js';
import type { CampaignState } from './state.js';

/**
 * Runs one replication of one strategy. The recorder, where given, is told of everything; nothing depends on it. The
 * advisor, where given, decides about the tip in place of the replacement rules.
 */
export function runCampaign(
  model: CampaignModel,
  luck: Luck,
  recorder: Recorder | null = null,
  advisor: Advisor | null = null,
): Outcome {
  return played(model, luck, { recorder, advisor }, null);
}

/** Runs many replications of one strategy, one after the other, with what all of them need made once. */
export class CampaignRunner {
  private readonly pool = new Pool();

  constructor(private readonly model: CampaignModel) {}

  /** As `runCampaign`; what is told of each image holds until the next replication begins. */
  run(luck: Luck): Outcome {
    this.pool.collect();
    return played(this.model, luck, ALONE, null, this.pool);
  }
}

/**
 * As `runCampaign`, from a state on: with the luck of the campaign that was stopped in it, what follows is the same to the
 * microsecond. Times, tips, costs and everything else that is counted start at the state; images count with what was
 * taken before. The first instrument to be free again begins it.
 */
export function continueCampaign(
  model: CampaignModel,
  luck: Luck,
  from: CampaignState,
  recorder: Recorder | null = null,
): Outcome {
  return played({ ...model, start: startOf(from) }, luck, { recorder, advisor: null }, from);
}

/** The moment (microseconds) at which a campaign goes on. */
export function startOf({ instruments }: CampaignState): number {
  return Math.min(...instruments.map(({ at }) => at));
}

/**
 * How a campaign stands at a moment (microseconds): each instrument between two takes, the first time that it is then or
 * later. Null where one of them is through, or can do no more, by then.
 */
export function campaignAt(model: CampaignModel, luck: Luck, moment: number): CampaignState | null {
  const { teams } = play(model, luck, ALONE, null, moment);
  const instruments = teams.map(({ measuring }) => measuring.stopped).filter((state) => state !== null);
  return instruments.length === teams.length ? { instruments } : null;
}

/** Seconds at the bench before the start, without all that comes after the first take. */
export function benchTimeOf(model: CampaignModel, luck: Luck): number {
  const { teams } = play(model, luck, ALONE, null, model.start + 1);
  return teams.reduce((sum, { at }) => sum + at.scheduler.benchTime, 0) / SECOND;
}

/** Who is told of a campaign, and who is asked. */
interface Company {
  readonly recorder: Recorder | null;
  readonly advisor: Advisor | null;
}

const ALONE: Company = { recorder: null, advisor: null };

function played(
  model: CampaignModel,
  luck: Luck,
  company: Company,
  from: CampaignState | null,
  pool = new Pool(),
): Outcome {
  const { ledger, teams } = play(model, luck, company, from, Infinity, pool);
  for (const { at } of teams) at.tips.finish();
  return outcomeOf(
    model,
    ledger,
    teams.map(({ at }) => at.scheduler),
    teams.every(({ measuring }) => measuring.isFinished),
    pool,
  );
}

function play(
  model: CampaignModel,
  luck: Luck,
  { recorder, advisor }: Company,
  from: CampaignState | null,
  stopsAt: number,
  pool = new Pool(),
) {
  const sim = new Simulation();
  const ledger = new Ledger(model);
  const procedures = proceduresOf(model);
  const context = new CampaignContext(sim, model, luck, ledger, pool, recorder, advisor);
  const teams = model.shares.map((images, number) => {
    const state = from?.instruments[number] ?? null;
    const at = new Workplace(context, procedures.workflow, number, images, state);
    const measuring = new Measuring(at, procedures, stopsAt);
    sim.spawn(measuring, state?.at ?? model.start, RANK.start, `instrument ${number + 1}`);
    return { at, measuring };
  });
  sim.run();
  return { ledger, teams };
}
