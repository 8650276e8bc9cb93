import { meaning, whole } from '../options.js';
import { exactly, SEED } from '../shared-options.js';
import { study } from '../study.js';
import { compareWork } from './compare.js';
import { comparisonReport } from './report.js';

export const compareStudy = study({
  question: 'Does hopping pay on this plan, and is that known?',
  does: 'Run all strategies of a scenario with common random numbers, print the comparison and write the report',
  isMain: true,
  isExplored: true,
  isShared: true,
  options: {
    seed: SEED,
    replications: exactly(2),
    'max-replications': meaning('Stop after so many at the latest [default: 20000]', whole({ min: 2, max: 1_000_000 })),
    // A central span of 95 % wants a few beyond either end.
    draws: meaning('Draw uncertain parameters so many times [default: 200]', whole({ min: 40, max: 10_000 })),
  },
  begin: (ground, { replications, 'max-replications': maxReplications, draws }) => {
    const scenario = ground.scenario();
    return compareWork(scenario.loaded, {
      ...ground.making(scenario),
      ...(replications === undefined ? {} : { replications }),
      ...(maxReplications === undefined ? {} : { maxReplications }),
      ...(draws === undefined ? {} : { draws }),
    });
  },
  report: comparisonReport,
});
