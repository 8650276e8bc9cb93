import { z } from 'zod';
import { type Duration, LONGEST } from '../../chance/duration.js';
import { readQuantity } from '../quantity.js';
import { flag, fraction, groups, type Leaf, quantity, type Range, tooltip, USUAL, WITHIN_TWO } from './leaf.js';

/** A step of a workflow, as the simulator uses it. Times in seconds. */
export interface Step {
  readonly duration: Duration;
  /** Needs an operator, and takes 1/paceHands of its time. */
  readonly manual: boolean;
  /** Chance that one try succeeds; the step is repeated until it does. */
  readonly success: number;
  /** Drift rate (nm/s) down to which it waits, instead of for a time. */
  readonly until?: number;
}

export interface StepPreset {
  readonly time:
    | { readonly usual: string; readonly p90: string }
    | { readonly min: string; readonly mode: string; readonly max: string };
  readonly manual: boolean;
  /** Given only for steps that may fail and are then repeated. */
  readonly success?: number;
  readonly description: string;
  readonly source?: string;
  /** How far the usual time may lie off; within a factor of two where not given. */
  readonly range?: Range;
}

const TIME_KEYS = ['fixed', 'usual', 'p90', 'min', 'mode', 'max'] as const;
const stepTime = (description: string, range: Range = WITHIN_TWO) =>
  quantity('time', { description, range }, { max: LONGEST });

/**
 * A step may be written `10 s`, `{usual: 3 min, p90: 5 min}`, `{min: 1 min, mode: 2 min, max: 8 min}` or `{fixed: 10 s}`;
 * the braces also take `manual` and, where a try may fail, `success`. What is left out comes from the preset.
 */
export function step(preset: StepPreset) {
  const manual = flag({ description: 'Needs an operator' }).optional();
  if (preset.success === undefined) return finished(forms({ manual }, preset.range), preset);
  const leaf: Leaf = { description: 'chance that one try succeeds', source: 'assumed', range: { between: [0.5, 1] } };
  const success = fraction(leaf, { min: 0.01 }).prefault(preset.success);
  return finished(forms({ manual, success }, preset.range), preset);
}

/** A step that waits for drift, which may also be written `{until: 0.05 nm/s}`: until the rate has come down to this. */
export function settleStep(preset: StepPreset) {
  const manual = flag({ description: 'Needs an operator' }).optional();
  const timed = forms({ manual }, preset.range);
  return finished(z.union([...timed.options, z.strictObject({ until: driftLimit, manual })]), preset, [
    ...TIME_KEYS,
    'until',
  ]);
}

/** A drift rate to wait for. */
export const driftLimit = quantity(
  'rate',
  { description: 'Waits until the drift rate has come down to this, the steady rate left out' },
  { positive: true, max: 1e6 },
);

function forms<E extends z.ZodRawShape>(extras: E, range: Range | undefined) {
  return z.union([
    stepTime('Fixed time', range),
    z.strictObject({ fixed: stepTime('fixed time', range), ...extras }),
    z.strictObject({
      usual: stepTime('usual (median) time', range),
      p90: stepTime('time not exceeded nine times in ten'),
      ...extras,
    }),
    z.strictObject({
      min: stepTime('least time'),
      mode: stepTime('most frequent time', range),
      max: stepTime('greatest time'),
      ...extras,
    }),
    z.strictObject(extras),
  ]);
}

function finished(written: z.ZodType<Form, FormInput>, preset: StepPreset, timeKeys: readonly string[] = TIME_KEYS) {
  const source = preset.source ?? USUAL;
  return written
    .transform((form, context): Step => toStep(form, preset, context))
    .register(groups, {
      description: preset.description,
      source,
      shorthand: 'fixed',
      completion: { entries: { ...preset.time }, unless: timeKeys },
    })
    .prefault(preset.time)
    .meta({ description: tooltip({ description: preset.description, source }) });
}

interface Extras {
  readonly manual?: boolean | undefined;
  readonly success?: number | undefined;
}
type FormOf<T> =
  | T
  | (Extras & { readonly fixed: T })
  | (Extras & { readonly usual: T; readonly p90: T })
  | (Extras & { readonly min: T; readonly mode: T; readonly max: T })
  | (Extras & { readonly until: T })
  | Extras;
type Form = FormOf<number>;
type FormInput = FormOf<string>;

function toStep(form: Form, preset: StepPreset, context: z.RefinementCtx): Step {
  const extras = typeof form === 'number' ? {} : form;
  const duration = durationOf(form, preset, context);
  const step = { duration, manual: extras.manual ?? preset.manual, success: extras.success ?? preset.success ?? 1 };
  return typeof form === 'object' && 'until' in form ? { ...step, until: form.until } : step;
}

function durationOf(form: Form, preset: StepPreset, context: z.RefinementCtx): Duration {
  if (typeof form === 'number') return { law: 'fixed', value: form };
  if ('fixed' in form) return { law: 'fixed', value: form.fixed };
  if ('usual' in form) {
    if (form.p90 < form.usual)
      context.addIssue({
        code: 'custom',
        path: ['p90'],
        message: 'p90 is less than usual; a time that is exceeded only once in ten is wanted',
      });
    if (form.usual === 0 && form.p90 > 0)
      context.addIssue({
        code: 'custom',
        path: ['usual'],
        message: 'usual is zero though p90 is not; a time greater than zero is wanted',
      });
    return { law: 'lognormal', median: form.usual, p90: form.p90 };
  }
  if ('min' in form) {
    if (!(form.min <= form.mode && form.mode <= form.max))
      context.addIssue({
        code: 'custom',
        path: ['mode'],
        message: 'mode does not lie between min and max; min ≤ mode ≤ max is wanted',
      });
    return { law: 'triangular', min: form.min, mode: form.mode, max: form.max };
  }
  return 'until' in form ? NO_TIME : presetDuration(preset.time);
}

/** How long a wait for drift lasts at least. */
const NO_TIME: Duration = { law: 'fixed', value: 0 };

function presetDuration(time: StepPreset['time']): Duration {
  return 'usual' in time
    ? { law: 'lognormal', median: seconds(time.usual), p90: seconds(time.p90) }
    : { law: 'triangular', min: seconds(time.min), mode: seconds(time.mode), max: seconds(time.max) };
}

function seconds(text: string): number {
  const reading = readQuantity('time', text);
  if (!reading.ok) throw new Error(reading.message);
  return reading.value;
}
