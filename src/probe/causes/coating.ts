import { cause, NOTHING } from './cause.js';

/** The coating is gone at the apex: no electrical image comes of the tip any more. */
export const coating = cause({
  title: 'coating loss',
  effect: { ...NOTHING, uncoats: true },
  leaves: 'coating gone',
  showsInScan: false,
  settings: {},
  inLogs: [
    ...['coating gone', 'coating lost', 'coating worn', 'coating loss', 'coating worn off', 'lost coating'],
    ...['delaminated', 'delamination'],
  ],
});
