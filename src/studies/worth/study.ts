import { meaning, whole } from '../options.js';
import { SEED } from '../shared-options.js';
import { study } from '../study.js';
import { worthReport } from './report.js';
import { DRAWS, worthWork } from './worth.js';

export const worthStudy = study({
  question: 'What should we measure first, and what is that worth?',
  does: 'Say what it is worth to know an uncertain value, or to log more tips, before choosing a strategy',
  options: {
    draws: meaning('Draws of all that is uncertain', whole({ min: 200, max: 20_000 }), String(DRAWS)),
    seed: SEED,
  },
  begin: (ground, { draws }) => {
    const scenario = ground.scenario();
    return worthWork(scenario.loaded, { ...ground.making(scenario), draws });
  },
  report: worthReport,
});
