import { meaning, whole } from '../options.js';
import { SEED } from '../shared-options.js';
import { study } from '../study.js';
import { occupancy } from './occupancy.js';
import { occupancyReport } from './report.js';

export const occupancyStudy = study({
  question: 'What do the booked hours go to, session by session?',
  does: 'Say what share of the booked hours each activity takes, session by session',
  isInPlace: true,
  options: {
    seed: SEED,
    replications: meaning('Run so many replications', whole({ min: 30, max: 100_000 }), '400'),
  },
  begin: (ground, { replications }) => {
    const scenario = ground.scenario();
    return () => occupancy(scenario.loaded, { ...ground.making(scenario), replications });
  },
  report: occupancyReport,
});
