/**
 * Runs campaigns of one strategy in a process of its own, on one thread, and measures them: a job as JSON on stdin, what
 * was measured as JSON on stdout. `job.ts` says what either holds.
 */
import { readFileSync } from 'node:fs';
import { CampaignRunner, runCampaign } from '../../dist/campaign/campaign.js';
import { compileModel } from '../../dist/campaign/model.js';
import { LuckTable } from '../../dist/chance/luck.js';
import { loadScenario } from '../../dist/scenario/load.js';
import { drawsAlone } from './draws.js';

const { text, strategy, warmUpSeconds, slices, slice, first, countedCampaigns, isDrawnAlone } = JSON.parse(
  readFileSync(0, 'utf8'),
);

const loaded = loadScenario(text);
if (!loaded.ok) throw new Error(loaded.faults.map(({ message }) => message).join('; '));
const { workflow, settings } = loaded.scenario.strategies[strategy];
const model = compileModel(workflow, settings);
const runner = new CampaignRunner(model);
const table = new LuckTable(settings.seed);
let replication = first;

/** Mean and standard error, value by value (Welford 1962). */
class Tally {
  count = 0;
  mean = 0;
  squares = 0;

  add(value) {
    this.count += 1;
    const step = value - this.mean;
    this.mean += step / this.count;
    this.squares += step * (value - this.mean);
  }

  get summary() {
    return { mean: this.mean, standardError: Math.sqrt(this.squares / Math.max(1, this.count - 1) / this.count) };
  }
}
const tallies = {
  totalTime: new Tally(),
  yield: new Tally(),
  tips: new Tally(),
  takes: new Tally(),
  undetectedBadShare: new Tally(),
};

/** Runs so many campaigns, or as many as there is time for. */
function runSlice() {
  const cpu = process.cpuUsage();
  const start = performance.now();
  const end = slice.seconds === undefined ? Infinity : start + 1000 * slice.seconds;
  const most = slice.campaigns ?? Infinity;
  let campaigns = 0;
  do {
    const outcome = runner.run(table.replication(replication));
    tallies.totalTime.add(outcome.totalTime / 3600);
    tallies.yield.add(outcome.yield);
    tallies.tips.add(outcome.tips);
    tallies.takes.add(outcome.takes);
    tallies.undetectedBadShare.add(outcome.undetectedBadShare);
    replication += 1;
    campaigns += 1;
  } while (campaigns < most && performance.now() < end);
  const wall = (performance.now() - start) / 1000;
  return { campaigns, seconds: { user: process.cpuUsage(cpu).user / 1e6, wall } };
}

/** Ends of steps that take time, and what happens to tips in between. */
function countEvents() {
  let events = 0;
  const recorder = {
    step: ({ step, start, end }) => {
      if (step !== 'wait' && end > start) events += 1;
    },
    event: (_time, _instrument, what) => {
      if (CAUSES.has(what)) events += 1;
    },
    tip: () => {},
  };
  for (let i = 0; i < countedCampaigns; i += 1) runCampaign(model, table.replication(first + i), recorder);
  return events / countedCampaigns;
}
const CAUSES = new Set(Object.values(settings.tips).flatMap(({ hazards }) => hazards.map(({ cause }) => cause)));

const warm = performance.now() + 1000 * warmUpSeconds;
// Replications that no slice uses.
for (let i = 0; performance.now() < warm; i += 1) runner.run(table.replication(2 ** 31 + i));

const measured = Array.from({ length: slices }, runSlice);
const peak = process.resourceUsage().maxRSS * 1024;
const means = Object.fromEntries(Object.entries(tallies).map(([measure, tally]) => [measure, tally.summary]));
const draws = isDrawnAlone ? drawsAlone(model, table, first) : null;
const eventsPerCampaign = countEvents();
console.log(JSON.stringify({ slices: measured, means, eventsPerCampaign, peak, images: model.images.length, draws }));
