import { breakEvenFiles, breakEvenText } from '../report/breakeven/index.js';
import type { LoadedScenario } from '../scenario/load.js';
import { breakEvenWork } from '../study/breakeven/breakeven.js';
import { axisOf } from '../study/vary/axis.js';
import { followersOf } from '../study/vary/followers.js';
import { RANGE_HELP } from '../study/vary/range.js';
import type { Varied } from '../study/vary/varied.js';
import { Failure } from './failure.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { closeStudy, openStudy, reportFolder, STUDY_OPTIONS, studyLine, variedIn } from './study.js';
import { measureMeant, TWO_STRATEGIES, twoStrategies } from './two-strategies.js';

const options = {
  ...STUDY_OPTIONS,
  vary: {
    type: 'string',
    array: true,
    nargs: 1,
    requiresArg: true,
    demandOption: 'which value? --vary PATH=RANGE, such as --vary plan.regions=5..60',
    describe: `PATH=RANGE along which to look; RANGE is ${RANGE_HELP}. Given twice: the break-even of the first for each setting of the second`,
  },
  ...TWO_STRATEGIES,
} as const;

export function addBreakEven(cli: Cli): Cli {
  return cli.command(
    'breakeven <file>',
    'Find where two strategies are equal in time, cost or yield along a value of the scenario',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const measure = measureMeant(given.measure);
      if (given.vary.length > 2) throw new Failure('--vary can be given twice at most');
      const study = openStudy(given, options, reportFolder(given, 'breakeven'));
      const between = twoStrategies(study.loaded, given.between, given.and);
      const [vary, across] = variedIn(study.loaded, given.vary, null);
      checkVaried(study.loaded, vary, between);
      const second = given.vary.length === 2 ? { across } : {};
      const command = studyLine('breakeven', given.file, {
        vary: given.vary,
        between: between[0],
        and: between[1],
        measure: measure === 'time' ? undefined : measure,
        seed: given.seed,
      });
      const result = await pursue(
        study,
        breakEvenWork(study.loaded, { ...study.options, command, vary, ...second, between, measure }),
      );
      await closeStudy(
        study,
        (draw) => breakEvenFiles(result, draw),
        breakEvenText(result, study.console.styles, study.console.columns),
      );
    },
  );
}

/** There must be something between the settings, and one of the two must change along them. */
function checkVaried(loaded: LoadedScenario, vary: Varied, between: readonly [string, string]): void {
  if (axisOf(vary) === null)
    throw new Failure(
      `--vary ${vary.path}: a break-even lies between numbers; write LOW..HIGH, or compare the settings with \`swap-or-hop sweep\``,
    );
  const followers = followersOf(loaded, vary);
  if (between.some((name) => followers.includes(name))) return;
  throw new Failure(
    `--vary ${vary.path}: it changes neither \`${between[0]}\` nor \`${between[1]}\`, as they set it themselves or do without it; what a strategy sets is \`strategies.NAME.set.${vary.path}\``,
  );
}
