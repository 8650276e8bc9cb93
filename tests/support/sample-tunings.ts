import type { TuneResult } from '../../src/studies/tune/results.js';
import { plainText } from './scene.js';
import { tuned } from './tuned.js';

/** What came of tuning a small plan for one value, for two, for many settings, and for a yield that nothing has. */
export function sampleTunings(): Readonly<Record<'one value' | 'two values' | 'searched' | 'no winner', TuneResult>> {
  const text = plainText({
    regions: 6,
    hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 3, scale: 4 } }],
    steps: { exchange: 60 },
    noticing: { review: { by: 'automatic', time: '5 s', sensitivity: 0.7, falseAlarm: 0.05 }, attempts: 5 },
  });
  const zone = 0.1;
  const after = 'rules.after=1 images, 2 images, 4 images, 6 images, none';
  return {
    'one value': tuned(text, { vary: [after], zone }),
    'two values': tuned(text, { vary: [after, 'pace.scan=0.8, 1, 1.2'], zone, goal: 'least-time-per-quality' }),
    searched: tuned(text, { vary: ['rules.after=1..9 images', 'pace.scan=0.6..1.4 in 9'], zone, goal: 'least-cost' }),
    'no winner': tuned(text, { vary: ['rules.after=3 images, 4 images, none'], zone: 0.01, yieldAtLeast: 1 }),
  };
}
