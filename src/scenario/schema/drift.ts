import * as z from 'zod';
import { factor, quantity, type Range } from './leaf.js';
import { type Parameter, uncertainty } from './uncertainty.js';

/** The disturbance of a kind: the drift rate that it starts, and in what time this decays. Rates in nm/s, times in seconds. */
function disturbance(preset: {
  readonly what: string;
  readonly rate: string;
  readonly rateRange: Range;
  readonly decay: string;
  readonly decayRange: Range;
}) {
  return z
    .strictObject({
      rate: quantity(
        'rate',
        {
          description: `Drift rate right after ${preset.what}; the median`,
          source: 'assumed',
          range: preset.rateRange,
        },
        { max: 1e6 },
      ).prefault(preset.rate),
      geometricSd: factor(
        {
          description: `Geometric standard deviation of the drift rate after ${preset.what}`,
          source: 'assumed',
          range: { between: [1.2, 2.5] },
        },
        { min: 1, max: 20 },
      ).prefault(1.5),
      decay: quantity(
        'time',
        {
          description: `Decay time of the drift rate after ${preset.what}; in which it falls to 1/e`,
          source: 'assumed',
          range: preset.decayRange,
        },
        { positive: true, max: 3e7 },
      ).prefault(preset.decay),
    })
    .optional();
}

const minutes = (least: number, most: number): Range => ({ between: [60 * least, 60 * most] });

const handlingDrift = disturbance({
  ...{ what: 'handling', rate: '1 nm/s', rateRange: { between: [0.5, 2] } },
  ...{ decay: '10 min', decayRange: minutes(3, 30) },
});

const moveDrift = disturbance({
  ...{ what: 'an offset or coarse move', rate: '0.2 nm/s', rateRange: { between: [0.05, 1] } },
  ...{ decay: '3 min', decayRange: minutes(0.5, 10) },
});

const steadyDrift = quantity(
  'rate',
  { description: 'Steady drift rate; it never settles', source: 'assumed', range: { between: [0.005, 0.1] } },
  { max: 1e6 },
).optional();

const ofKind = (kind: string): Readonly<Record<string, Parameter>> => ({
  [`${kind}.rate`]: { at: [kind, 'rate'], scale: 'ln' },
  [`${kind}.geometricSd`]: { at: [kind, 'geometricSd'], scale: 'ln ln' },
  [`${kind}.decay`]: { at: [kind, 'decay'], scale: 'ln' },
});
const ofSteady: Readonly<Record<string, Parameter>> = { steady: { at: ['steady'], scale: 'ln' } };

const MEANING = 'Drift after disturbances, and the steady one; what is not given disturbs nothing';

/** Drift where only hands disturb. */
export const handledDriftSchema = z
  .strictObject({
    handling: handlingDrift,
    steady: steadyDrift,
    uncertainty: uncertainty('handledDriftUncertainty', 'drift', { ...ofKind('handling'), ...ofSteady }),
  })
  .meta({ description: MEANING })
  .optional();

/** Drift where moves disturb too. */
export const movedDriftSchema = z
  .strictObject({
    handling: handlingDrift,
    move: moveDrift,
    steady: steadyDrift,
    uncertainty: uncertainty('movedDriftUncertainty', 'drift', {
      ...ofKind('handling'),
      ...ofKind('move'),
      ...ofSteady,
    }),
  })
  .meta({ description: MEANING })
  .optional();
