import { cause, NOTHING } from './cause.js';

/** Something sticks to the apex, until it comes off by itself or is cleaned off. */
export const fouling = cause({
  title: 'contamination',
  effect: { ...NOTHING, clears: true },
  leaves: 'fouled',
  showsInScan: true,
  settings: {
    quality: {
      is: 'share',
      description: 'Factor on image quality while the tip is contaminated',
      usual: 0.5,
      range: [0.1, 0.9],
    },
    clears: {
      is: 'images',
      description: 'Mean number of images until the tip clears by itself',
    },
  },
  inLogs: [
    ...['fouled', 'foul', 'contamination', 'contaminated', 'dirty', 'dirt', 'debris'],
    ...['particle', 'picked up particle'],
  ],
});
