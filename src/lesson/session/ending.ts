import type { RecordedStep } from '../../campaign/recorder.js';
import type { CampaignModel } from '../../campaign/model.js';
import type { Timeline } from '../../analysis/results.js';

/** A campaign that ends with the granted time, or else with its first booking; as it is where neither ends. */
export function inSession(model: CampaignModel): CampaignModel {
  if (model.allocationEnd !== null) return model;
  const end = model.bookings.sessionEnd(model.start, 1);
  return Number.isFinite(end) ? { ...model, allocationEnd: end } : model;
}

/**
 * The steps that come before a moment (microseconds): what runs then is finished, a wait ends there, and a scan that would
 * have passed it is not begun.
 */
export function stepsBefore(end: number, steps: readonly RecordedStep[]): readonly RecordedStep[] {
  return steps
    .filter(({ start, take }) => start + (take?.image.pass.duration ?? 0) <= end && start < end)
    .map((step) => (step.step === 'wait' && step.end > end ? { ...step, end } : step));
}

/** What a timeline shows up to a moment, seconds from the start. */
export function timelineBefore(end: number, { strategy, segments, tips }: Timeline): Timeline {
  const before = <T extends { readonly start: number; readonly end: number }>(stretches: readonly T[]) =>
    stretches.filter(({ start }) => start < end).map((each) => (each.end > end ? { ...each, end } : each));
  return { strategy, segments: before(segments), tips: before(tips) };
}
