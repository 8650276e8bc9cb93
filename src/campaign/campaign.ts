import type { Luck } from '../chance/luck.js';
import { Simulation } from '../kernel/simulation.js';
import { Floor } from './floor.js';
import { Instrument } from './instrument.js';
import { Ledger } from './ledger.js';
import { Measuring } from './measuring.js';
import type { CampaignModel } from './model.js';
import { type Outcome, outcomeOf } from './outcome.js';
import { RANK } from './ranks.js';
import type { Recorder } from './recorder.js';
import { WORKFLOWS } from './workflows.js';

/** Runs one replication of one strategy. The recorder, where given, is told of everything; nothing depends on it. */
export function runCampaign(model: CampaignModel, luck: Luck, recorder: Recorder | null = null): Outcome {
  const sim = new Simulation();
  const ledger = new Ledger(model);
  const floor = new Floor(sim, model, luck, ledger, recorder);
  const { instruments } = model.settings;
  const teams = Array.from({ length: instruments }, (_, number) => {
    // Regions are dealt out in turn.
    const images = model.images.filter((image) => image.region % instruments === number);
    const at = new Instrument(floor, number, images, WORKFLOWS[model.workflow]);
    const measuring = new Measuring(at);
    sim.spawn(measuring.run(), model.start, RANK.start, `instrument ${number + 1}`);
    return { at, measuring };
  });
  sim.run();
  for (const { at } of teams) at.tips.finish();
  return outcomeOf(
    model,
    ledger,
    teams.map(({ at }) => at.station),
    teams.every(({ measuring }) => measuring.isFinished),
  );
}
