/**
 * What luck costs by itself, in a process that has run campaigns already: the draws of some campaigns are asked again, and
 * what the campaigns made of them (times of steps, lives) is made again, with nothing in between.
 */
import { PURPOSES } from '../../dist/chance/luck.js';
import { exponentialScore } from '../../dist/chance/scores.js';
import { runCampaign } from '../../dist/campaign/campaign.js';
import { stepTime } from '../../dist/campaign/step-model.js';

const CAMPAIGNS = 50;
/** Rounds before, and rounds that are timed: two or three seconds. */
const WARM_UP = 200;
const ROUNDS = 600;

/** Draws of a campaign on average, and seconds of the processor that they take. */
export function drawsAlone(model, table, first) {
  const drawn = Array.from({ length: CAMPAIGNS }, (_, i) => drawsOf(model, table.replication(first + i)));
  const all = () => drawn.reduce((sum, draws) => sum + drawAgain(draws), 0);
  for (let round = 0; round < WARM_UP; round += 1) all();
  const before = process.cpuUsage();
  let sum = 0;
  for (let round = 0; round < ROUNDS; round += 1) sum += all();
  const { user } = process.cpuUsage(before);
  // Also keeps the engine from leaving out what nobody looks at.
  if (!Number.isFinite(sum)) throw new Error('A draw was none.');
  const asked = drawn.reduce((count, { indices }) => count + indices.length / 5, 0);
  return { perCampaign: asked / CAMPAIGNS, seconds: user / 1e6 / (ROUNDS * CAMPAIGNS) };
}

/** Runs a campaign, and notes what it asks. */
function drawsOf(model, luck) {
  const indices = [];
  const times = [];
  const lives = [];
  const steps = Object.values(model.steps);
  const notingLife = (hazard) => ({
    ...hazard,
    life: {
      ...hazard.life,
      exposureAt: (drawn) => {
        lives.push([hazard.life, drawn]);
        return hazard.life.exposureAt(drawn);
      },
    },
  });
  const noting = {
    ...model,
    kinds: model.kinds.map((kind) => ({ ...kind, hazards: kind.hazards.map(notingLife) })),
  };
  const uniform = (...of) => {
    indices.push(...of);
    const u = luck.uniform(...of);
    const step = of[0] === PURPOSES.stepTime ? steps.find(({ number }) => number === of[2]) : undefined;
    if (step !== undefined && !step.isFixed && step.until === null) times.push([step, u]);
    return u;
  };
  const { drawn } = luck;
  runCampaign(noting, { drawn, uniform, draw: uniform, drawCompanion: () => luck.drawCompanion() });
  return { luck, indices: Int32Array.from(indices), times, lives };
}

function drawAgain({ luck, indices, times, lives }) {
  let sum = 0;
  for (let i = 0; i < indices.length; i += 5) {
    const u = luck.uniform(indices[i], indices[i + 1], indices[i + 2], indices[i + 3], indices[i + 4]);
    if (indices[i] === PURPOSES.life || indices[i] === PURPOSES.clearing) sum += exponentialScore(u);
    else sum += u;
  }
  for (const [step, u] of times) sum += stepTime(step, u);
  for (const [life, drawn] of lives) sum += life.exposureAt(drawn);
  return sum;
}
