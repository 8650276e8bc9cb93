import { cause, NOTHING } from './cause.js';

/** What broke off or grew at the apex left two: every feature shows twice, and only a new apex helps. */
export const doubleTip = cause({
  title: 'double tip',
  effect: NOTHING,
  leaves: 'chipped',
  showsInScan: false,
  goesWithApex: true,
  settings: {
    quality: {
      is: 'share',
      description: 'Factor on image quality while the tip has two apexes',
      usual: 0.3,
      range: [0.1, 0.7],
    },
  },
  inLogs: ['double apex', 'doubled', 'multiple tip', 'multi tip', 'ghost', 'ghosting', 'ghost image'],
});
