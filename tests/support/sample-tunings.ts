import { tuneReport } from '../../src/studies/tune/report.js';
import { textsOf } from './report-texts.js';
import { plainText } from './scene.js';
import { tuned } from './tuned.js';

const text = plainText({
  regions: 6,
  hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 3, scale: 4 } }],
  steps: { exchange: 60 },
  noticing: { review: { by: 'automatic', time: '5 s', sensitivity: 0.7, falseAlarm: 0.05 }, attempts: 5 },
});
const ZONE = 0.1;
const AFTER = 'rules.after=1 images, 2 images, 4 images, 6 images, none';

/** What came of tuning a small plan for one value, for two, for many settings, and for a yield that nothing has. */
export const SAMPLE_TUNINGS = {
  'one value': () => tuned(text, { vary: [AFTER], zone: ZONE }),
  'two values': () =>
    tuned(text, { vary: [AFTER, 'pace.scan=0.8, 1, 1.2'], zone: ZONE, goal: 'least-time-per-quality' }),
  searched: () =>
    tuned(text, { vary: ['rules.after=1..9 images', 'pace.scan=0.6..1.4 in 9'], zone: ZONE, goal: 'least-cost' }),
  'no winner': () => tuned(text, { vary: ['rules.after=3 images, 4 images, none'], zone: 0.01, yieldAtLeast: 1 }),
};

const command = "swap-or-hop tune plain.yaml --vary 'rules.after=2..8 images by 2, none'";

/** Pages of some of them, by name. */
export async function tuningPages(...names: (keyof typeof SAMPLE_TUNINGS)[]): Promise<Record<string, string>> {
  const written: Record<string, string> = {};
  for (const name of names)
    written[name] = (await textsOf(tuneReport, { ...SAMPLE_TUNINGS[name](), command })).get('report.html') ?? '';
  return written;
}
