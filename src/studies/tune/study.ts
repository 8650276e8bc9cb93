import type { Work } from '../../execution/work.js';
import { Failure } from '../../scenario/failure.js';
import { suggestion } from '../../scenario/nearest.js';
import type { Reading } from '../../scenario/quantity.js';
import { meaning, share, text, whole } from '../options.js';
import { SEED, strategyNamed, varied, variedIn } from '../shared-options.js';
import { study } from '../study.js';
import { GOAL_NAMES, type GoalName, goalNamed } from './goals.js';
import { tuneReport } from './report.js';
import { MOST_DIRECTIONS } from './search.js';
import { MOST_CAMPAIGNS, tuneWork } from './tune.js';

export const tuneStudy = study({
  question: 'When should I replace a tip, how often should I check, how fast may I scan?',
  does: 'Find the best setting of one or several values of a strategy',
  options: {
    vary: varied(
      'to find the best setting in',
      'Given several times: all of them together',
      "'rules.after=5..60 images by 5'",
    ),
    strategy: text('Strategy to tune [default: the first one]'),
    goal: meaning(`What for: ${GOAL_NAMES.join(', ')}`, goalMeant, 'least-time'),
    'yield-at-least': meaning(
      'Least yield, `0.9` or `90 %`; 0 for none [default: a little below that of the present setting]',
      share({ min: 0, max: 1 }),
    ),
    hours: meaning('Granted hours for most-yield [default: what the scenario grants]', hoursMeant),
    confidence: meaning('Chance with which the choice is to be right', share({ min: 0.5, max: 0.999 }), '95 %'),
    zone: meaning(
      'What counts as equal, as a share of the goal [default: the smallest difference of the scenario]',
      share({ min: 0.0001, max: 0.5 }),
    ),
    'max-campaigns': meaning(
      'End the selection after so many campaigns at the latest',
      whole({ min: 100, max: 100_000_000 }),
      String(MOST_CAMPAIGNS),
    ),
    draws: meaning(
      'Say what it is worth to know an uncertain value before choosing, from so many draws of all that is uncertain [default: none]',
      whole({ min: 200, max: 20_000 }),
    ),
    seed: SEED,
  },
  begin: (ground, values) => {
    const { goal, 'yield-at-least': yieldAtLeast = null, hours = null, 'max-campaigns': maxCampaigns } = values;
    if (yieldAtLeast !== null && goalNamed(goal).leastYield === 'never')
      throw new Failure(`--yield-at-least does not go with --goal ${goal}, which wants as much yield as there is`);
    if (hours !== null && !goalNamed(goal).isWithinGranted)
      throw new Failure(`--hours goes with --goal most-yield only; --goal ${goal} lets campaigns run to their end`);
    const scenario = ground.scenario();
    const strategy = strategyNamed(scenario.loaded, values.strategy);
    const vary = variedIn(scenario.loaded, values.vary, strategy);
    checkVaried(vary.map(({ path }) => path));
    const { confidence, zone = null, draws = null } = values;
    const request = { strategy, varied: vary, goal, yieldAtLeast, hours, confidence, zone, maxCampaigns, draws };
    return orFailure(tuneWork(scenario.loaded, request, ground.making(scenario)));
  },
  report: tuneReport,
});

function* orFailure<Result>(work: Work<Reading<Result>>): Work<Result> {
  const reading = yield* work;
  if (!reading.ok) throw new Failure(reading.message);
  return reading.value;
}

function goalMeant(typed: string): GoalName {
  const goal = GOAL_NAMES.find((each) => each === typed);
  if (goal !== undefined) return goal;
  throw new Failure(`no goal is called \`${typed}\`${suggestion(typed, GOAL_NAMES)}`);
}

function hoursMeant(typed: string): number {
  const match = /^(\d+(?:\.\d+)?)(?:\s*h)?$/u.exec(typed.trim());
  const hours = match === null ? NaN : Number(match[1]);
  if (hours > 0 && hours <= 100_000) return hours;
  throw new Failure(`--hours wants a number of hours above zero, such as \`24\`, not "${typed}"`);
}

function checkVaried(paths: readonly string[]): void {
  const twice = paths.find((path, place) => paths.indexOf(path) < place);
  if (twice !== undefined)
    throw new Failure(`--vary ${twice} is given twice; one RANGE can hold several parts, with commas between`);
  if (paths.length > MOST_DIRECTIONS) throw new Failure(`--vary can be given ${MOST_DIRECTIONS} times at most`);
}
