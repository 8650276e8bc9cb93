import { cause, NOTHING } from './cause.js';

/** A piece of the apex breaks off, and its radius jumps: sudden blunting. */
export const chipping = cause({
  title: 'chipping',
  effect: { ...NOTHING, chips: true },
  leaves: 'chipped',
  showsInScan: true,
  settings: {
    radiusFactor: {
      median: {
        is: 'factor',
        description: 'Median factor by which the apex radius jumps',
        usual: 2,
        range: [1.2, 4],
        least: 1,
        most: 1000,
      },
      geometricSd: {
        is: 'factor',
        description: 'Geometric standard deviation of the factor by which the apex radius jumps',
        usual: 1.5,
        range: [1.1, 2],
        least: 1,
        most: 20,
      },
    },
  },
  inLogs: ['chipped', 'chip', 'apex chipped', 'chipped apex'],
});
