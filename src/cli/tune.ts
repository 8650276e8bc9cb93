import { tuneFiles, tuneText } from '../report/tune/index.js';
import { suggestion } from '../scenario/nearest.js';
import { GOAL_NAMES, type GoalName, goalNamed } from '../study/tune/goals.js';
import { MOST_DIRECTIONS } from '../study/tune/search.js';
import { tuneWork } from '../study/tune/tune.js';
import { RANGE_HELP } from '../study/vary/range.js';
import { wholeNumber } from './arguments.js';
import { Failure } from './failure.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { closeStudy, openStudy, reportFolder, STUDY_OPTIONS, strategyNamed, studyLine, variedIn } from './study.js';

const USUAL = { goal: 'least-time', confidence: '95 %', zone: '1 %', campaigns: '30000' };

const options = {
  ...STUDY_OPTIONS,
  vary: {
    type: 'string',
    array: true,
    nargs: 1,
    requiresArg: true,
    demandOption: "which value? --vary PATH=RANGE, such as --vary 'rules.after=5..60 images by 5'",
    describe: `PATH=RANGE to find the best setting in; RANGE is ${RANGE_HELP}. Given several times: all of them together`,
  },
  strategy: { type: 'string', requiresArg: true, describe: 'Strategy to tune [default: the first one]' },
  goal: {
    type: 'string',
    requiresArg: true,
    default: USUAL.goal,
    describe: `What for: ${GOAL_NAMES.join(', ')}`,
  },
  'yield-at-least': {
    type: 'string',
    requiresArg: true,
    describe: 'Least yield, `0.9` or `90 %`; 0 for none [default: a little below that of the present setting]',
  },
  hours: {
    type: 'string',
    requiresArg: true,
    describe: 'Granted hours for most-yield [default: what the scenario grants]',
  },
  confidence: {
    type: 'string',
    requiresArg: true,
    default: USUAL.confidence,
    describe: 'Chance with which the choice is to be right',
  },
  zone: {
    type: 'string',
    requiresArg: true,
    default: USUAL.zone,
    describe: 'What counts as equal, as a share of the goal',
  },
  'max-campaigns': {
    type: 'string',
    requiresArg: true,
    default: USUAL.campaigns,
    describe: 'End the selection after so many campaigns at the latest',
  },
} as const;

export function addTune(cli: Cli): Cli {
  return cli.command(
    'tune <file>',
    'Find the best setting of one or several values of a strategy',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const goal = goalMeant(given.goal);
      const least = given['yield-at-least'];
      const yieldAtLeast = least === undefined ? null : share('yield-at-least', least, { from: 0, to: 1 });
      const hours = given.hours === undefined ? null : hoursMeant(given.hours);
      if (yieldAtLeast !== null && goalNamed(goal).leastYield === 'never')
        throw new Failure(`--yield-at-least does not go with --goal ${goal}, which wants as much yield as there is`);
      if (hours !== null && !goalNamed(goal).isWithinGranted)
        throw new Failure(`--hours goes with --goal most-yield only; --goal ${goal} lets campaigns run to their end`);
      const confidence = share('confidence', given.confidence, { from: 0.5, to: 0.999 });
      const zone = share('zone', given.zone, { from: 0.0001, to: 0.5 });
      const most = given['max-campaigns'];
      const maxCampaigns = wholeNumber('max-campaigns', most, { min: 100, max: 100_000_000 });
      const study = openStudy(given, options, reportFolder(given, 'tune'));
      const strategy = strategyNamed(study.loaded, given.strategy);
      const varied = variedIn(study.loaded, given.vary, strategy);
      checkVaried(varied.map(({ path }) => path));
      const request = { strategy, varied, goal, yieldAtLeast, hours, confidence, zone, maxCampaigns };
      const unless = (usual: string, text: string) => (text === usual ? undefined : text);
      const command = studyLine('tune', given.file, {
        vary: given.vary,
        strategy: given.strategy,
        goal: unless(USUAL.goal, given.goal),
        'yield-at-least': least,
        hours: given.hours,
        confidence: unless(USUAL.confidence, given.confidence),
        zone: unless(USUAL.zone, given.zone),
        'max-campaigns': unless(USUAL.campaigns, most),
        seed: given.seed,
      });
      const tuned = await pursue(study, tuneWork(study.loaded, request, { ...study.options, command }));
      if (!tuned.ok) {
        await study.crew.end();
        throw new Failure(tuned.message);
      }
      const { value } = tuned;
      const text = tuneText(value, study.console.styles, study.console.columns);
      await closeStudy(study, (draw) => tuneFiles(value, draw), text);
    },
  );
}

function goalMeant(text: string): GoalName {
  const goal = GOAL_NAMES.find((each) => each === text);
  if (goal !== undefined) return goal;
  throw new Failure(`no goal is called \`${text}\`${suggestion(text, GOAL_NAMES)}`);
}

/** A share as a person types it: `0.9`, `90 %`. */
function share(option: string, text: string, { from, to }: { readonly from: number; readonly to: number }): number {
  const match = /^(\d+(?:\.\d+)?)\s*(%?)$/u.exec(text.trim());
  const value = match === null ? NaN : Number(match[1]) / (match[2] === '%' ? 100 : 1);
  if (value >= from && value <= to) return value;
  const near = value > 1 && value <= 100 ? `; did you mean \`${text.trim()} %\`?` : '';
  throw new Failure(
    `--${option} wants a share from ${from} to ${to}, such as \`0.9\` or \`90 %\`, not "${text}"${near}`,
  );
}

function hoursMeant(text: string): number {
  const match = /^(\d+(?:\.\d+)?)(?:\s*h)?$/u.exec(text.trim());
  const hours = match === null ? NaN : Number(match[1]);
  if (hours > 0 && hours <= 100_000) return hours;
  throw new Failure(`--hours wants a number of hours above zero, such as \`24\`, not "${text}"`);
}

function checkVaried(paths: readonly string[]): void {
  const twice = paths.find((path, place) => paths.indexOf(path) < place);
  if (twice !== undefined)
    throw new Failure(`--vary ${twice} is given twice; one RANGE can hold several parts, with commas between`);
  if (paths.length > MOST_DIRECTIONS) throw new Failure(`--vary can be given ${MOST_DIRECTIONS} times at most`);
}
