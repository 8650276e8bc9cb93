import { flag } from '../options.js';
import { SEED, TWO_STRATEGIES, twoStrategies } from '../shared-options.js';
import { study } from '../study.js';
import { sensitivityReport } from './report.js';
import { sensitivityWork } from './sensitivity.js';

export const sensitivityStudy = study({
  question: 'Which of my guesses decides the answer?',
  does: 'Say which assumed values decide between two strategies, and where the verdict reverses',
  options: {
    ...TWO_STRATEGIES,
    seed: SEED,
    all: flag('Try what has a source too, not only what is assumed'),
  },
  begin: (ground, { between: one, and, measure, all: isAll }) => {
    const scenario = ground.scenario();
    const between = twoStrategies(scenario.loaded, one, and);
    const making = ground.making(scenario, { between: between[0], and: between[1] });
    return sensitivityWork(scenario.loaded, { ...making, between, measure, isAll });
  },
  report: sensitivityReport,
});
