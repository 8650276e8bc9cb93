import { axisOf } from '../../analysis/vary/axis.js';
import { followersOf } from '../../analysis/vary/followers.js';
import type { Varied } from '../../analysis/vary/varied.js';
import { Failure } from '../../scenario/failure.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { refuseThird, SEED, TWO_STRATEGIES, twoStrategies, varied, variedIn } from '../shared-options.js';
import { study } from '../study.js';
import { breakEvenWork } from './breakeven.js';
import { breakEvenReport } from './report.js';

export const breakEvenStudy = study({
  question: 'From which size of plan on does preparing a lever pay?',
  does: 'Find where two strategies are equal in time, cost or yield along a value of the scenario',
  options: {
    vary: varied(
      'along which to look',
      'Given twice: the break-even of the first for each setting of the second',
      'plan.regions=5..60',
    ),
    ...TWO_STRATEGIES,
    seed: SEED,
  },
  begin: (ground, { vary: texts, between: one, and, measure }) => {
    refuseThird(texts);
    const scenario = ground.scenario();
    const { loaded } = scenario;
    const between = twoStrategies(loaded, one, and);
    const [vary, across] = variedIn(loaded, texts, null);
    checkVaried(loaded, vary, between);
    const second = texts.length === 2 ? { across } : {};
    const making = ground.making(scenario, { between: between[0], and: between[1] });
    return breakEvenWork(loaded, { ...making, vary, ...second, between, measure });
  },
  report: breakEvenReport,
});

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
