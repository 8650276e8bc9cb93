import { cause, NOTHING } from './cause.js';

/** The tip breaks off. */
export const breakage = cause({
  title: 'breakage',
  effect: { ...NOTHING, breaks: true },
  leaves: 'broken',
  showsInScan: true,
  settings: {},
  inLogs: [
    ...['broken', 'broke', 'break', 'tip broken', 'broken tip', 'snapped', 'fracture', 'fractured'],
    ...['crash', 'crashed', 'tip crash'],
  ],
});
