import { cause, NOTHING } from './cause.js';

/** The tip has come to its wear-out: images are worse from then on. */
export const wornOut = cause({
  title: 'wear-out',
  effect: NOTHING,
  leaves: 'worn-out',
  showsInScan: false,
  settings: {
    quality: {
      is: 'share',
      description: 'Factor on image quality once the tip is at its wear-out',
      usual: 0.5,
      range: [0.1, 0.9],
    },
  },
  inLogs: ['worn out', 'worn', 'wear', 'blunt', 'blunted', 'dull', 'too blunt'],
});
