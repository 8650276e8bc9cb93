import { Failure } from '../../scenario/failure.js';
import { text } from '../options.js';
import { refuseThird, SEED, strategyNamed, varied, variedIn } from '../shared-options.js';
import { study } from '../study.js';
import { sweepReport } from './report.js';
import { MOST_CELLS, sweepWork } from './sweep.js';

export const sweepStudy = study({
  question: 'What does rushing cost?',
  does: 'Try a range of settings, or a grid of two, and show what becomes of time, scans lost, yield and cost',
  options: {
    vary: varied('whose settings are tried', 'Given twice: every pair of settings', 'pace.scan=0.6..2'),
    strategy: text('Sweep this strategy alone, whatever it sets itself [default: all, by the shared part]'),
    seed: SEED,
  },
  begin: (ground, { vary: texts, strategy: name }) => {
    refuseThird(texts);
    const scenario = ground.scenario();
    const { loaded } = scenario;
    const strategy = name === undefined ? null : strategyNamed(loaded, name);
    const vary = variedIn(loaded, texts, strategy);
    checkSize(
      vary.map(({ settings }) => settings.length),
      strategy === null ? loaded.strategies.length : 1,
    );
    return sweepWork(loaded, { ...ground.making(scenario), vary, ...(strategy === null ? {} : { strategy }) });
  },
  report: sweepReport,
});

function checkSize(settings: readonly number[], strategies: number): void {
  const cells = settings.reduce((product, count) => product * count, strategies);
  if (cells <= MOST_CELLS) return;
  throw new Failure(
    `--vary: ${settings.join(' × ')} settings of ${strategies} ${strategies === 1 ? 'strategy' : 'strategies'} are ${cells} cells, more than ${MOST_CELLS}; take fewer settings, such as \`LOW..HIGH in 11\``,
  );
}
