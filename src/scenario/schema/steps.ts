import * as z from 'zod';
import { type Duration, LONGEST } from '../../chance/duration.js';
import type { Pace } from '../../probe/settings.js';
import { readQuantity } from '../quantity.js';
import {
  checked,
  flag,
  fraction,
  groups,
  type Leaf,
  quantity,
  type Range,
  tooltip,
  USUAL,
  WITHIN_TWO,
  type Wrong,
} from './leaf.js';

/** The time of a step in seconds, in one of the forms in which it may be written; or the drift rate (nm/s) down to which it waits. */
export type StepTime =
  | { readonly fixed: number }
  | { readonly usual: number; readonly p90: number }
  | { readonly min: number; readonly mode: number; readonly max: number }
  | { readonly until: number };

interface Extras {
  /** Needs an operator, and takes 1/paceHands of its time. */
  readonly manual: boolean;
  /** Chance that one try succeeds, where it may fail: the step is repeated until it does. */
  readonly success?: number | undefined;
}

/** A step of a workflow. */
export type Step = StepTime & { readonly manual: boolean; readonly success: number };

/** The drift rate (nm/s) down to which a wait lasts; undefined where it lasts for a time. */
export function untilOf(wait: StepTime): number | undefined {
  return 'until' in wait ? wait.until : undefined;
}

/** How long the step takes; where it waits for drift, at least. */
export function durationOf(step: StepTime): Duration {
  if ('usual' in step) return { distribution: 'lognormal', median: step.usual, p90: step.p90 };
  if ('min' in step) return { distribution: 'triangular', min: step.min, mode: step.mode, max: step.max };
  return { distribution: 'fixed', value: 'fixed' in step ? step.fixed : 0 };
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

const TIME_KEYS = ['fixed', 'usual', 'p90', 'min', 'mode', 'max', 'until'];
const stepTime = (description: string, range: Range = WITHIN_TWO) =>
  quantity('time', { description, range }, { max: LONGEST });

/**
 * A step may be written `10 s`, `{usual: 3 min, p90: 5 min}`, `{min: 1 min, mode: 2 min, max: 8 min}` or `{fixed: 10 s}`;
 * the braces also take `manual` and, where a try may fail, `success`. What is left out comes from the preset.
 */
export function step(preset: StepPreset) {
  return preset.success === undefined
    ? finished(z.union(forms(handsOf(preset), preset.range)), preset)
    : finished(z.union(forms({ ...handsOf(preset), success: successOf(preset.success) }, preset.range)), preset);
}

/** A step that waits for drift, which may also be written `{until: 0.05 nm/s}`: until the rate has come down to this. */
export function settleStep(preset: StepPreset) {
  const timed = forms(handsOf(preset), preset.range);
  return finished(z.union([...timed, z.strictObject({ until: driftLimit, ...handsOf(preset) })]), preset);
}

/** A drift rate to wait for. */
export const driftLimit = quantity(
  'rate',
  { description: 'Drift rate to wait for; the steady rate left out' },
  { positive: true, max: 1e6 },
);

function handsOf({ manual }: StepPreset) {
  return { manual: flag({ description: 'Needs an operator' }).prefault(manual) };
}

function successOf(preset: number) {
  const leaf: Leaf = {
    description: 'probability that one try succeeds',
    source: 'assumed',
    range: { between: [0.5, 1] },
  };
  return fraction(leaf, { min: 0.01 }).prefault(preset);
}

function forms<E extends z.ZodRawShape>(extras: E, range: Range | undefined) {
  return [
    stepTime('Fixed time', range),
    z.strictObject({ fixed: stepTime('fixed time', range), ...extras }),
    z.strictObject({
      usual: stepTime('usual time; the median', range),
      p90: stepTime('90th percentile of the time'),
      ...extras,
    }),
    z.strictObject({
      min: stepTime('least time'),
      mode: stepTime('most frequent time', range),
      max: stepTime('greatest time'),
      ...extras,
    }),
    z.strictObject(extras),
  ] as const;
}

function finished(written: z.ZodType<Form, FormInput>, preset: StepPreset) {
  const source = preset.source ?? USUAL;
  const { manual, success = 1 } = preset;
  const whole = written.transform((form): Step => {
    if (typeof form === 'number') return { fixed: form, manual, success };
    const time = hasTime(form) ? form : inSeconds(preset.time);
    return { ...time, manual: form.manual, success: form.success ?? success };
  });
  return checked(whole, wrongTime)
    .register(groups, {
      description: preset.description,
      source,
      shorthand: 'fixed',
      completion: { entries: { ...preset.time }, unless: TIME_KEYS },
    })
    .prefault(preset.time)
    .meta({ description: tooltip({ description: preset.description, source }) });
}

interface ExtrasInput {
  readonly manual?: boolean | undefined;
  readonly success?: number | undefined;
}
type FormOf<Time, Rest> =
  | Time
  | (Rest & { readonly fixed: Time })
  | (Rest & { readonly usual: Time; readonly p90: Time })
  | (Rest & { readonly min: Time; readonly mode: Time; readonly max: Time })
  | (Rest & { readonly until: Time })
  | Rest;
type Form = FormOf<number, Extras>;
type FormInput = FormOf<string, ExtrasInput>;

function hasTime(form: object): form is StepTime {
  return TIME_KEYS.some((key) => key in form);
}

function wrongTime(step: Step): Wrong | null {
  if ('usual' in step && step.p90 < step.usual)
    return { key: 'p90', message: 'p90 is less than usual; a time that is exceeded only once in ten is wanted' };
  if ('usual' in step && step.usual === 0 && step.p90 > 0)
    return { key: 'usual', message: 'usual is zero though p90 is not; a time greater than zero is wanted' };
  if ('min' in step && !(step.min <= step.mode && step.mode <= step.max))
    return { key: 'mode', message: 'mode does not lie between min and max; min ≤ mode ≤ max is wanted' };
  return null;
}

function inSeconds(time: StepPreset['time']): StepTime {
  return 'usual' in time
    ? { usual: seconds(time.usual), p90: seconds(time.p90) }
    : { min: seconds(time.min), mode: seconds(time.mode), max: seconds(time.max) };
}

function seconds(text: string): number {
  const reading = readQuantity('time', text);
  if (!reading.ok) throw new Error(reading.message);
  return reading.value;
}

/** Steps in which nothing is done but wait. */
const WAITS: readonly string[] = ['warmUp', 'settle'];

/** By what the usual time of a step is divided: the pace of waits, that of hands where the step needs them, else 1. */
export function stepPace(step: string, manual: boolean, pace: Pace): number {
  if (WAITS.includes(step)) return pace.wait;
  return manual ? pace.hands : 1;
}
