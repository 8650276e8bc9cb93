import type { WorkflowName } from '../../../scenario/schema/scenario.js';
import type { Summary } from '../../../analysis/results.js';
import { numberText, SHARE } from '../../../wording/numbers.js';
import { sheetText } from './step-sheets.js';

/** What the program always does, in sentences for a methods text; tests hold them to the code. */

export const OUTPUTS: readonly string[] = [
  'Instrument time: all time inside bookings from the start to the end of the last step; with several instruments, that of the one that ends last.',
  'Operator time: all time in which an operator is busy, preparation at the bench before the start included.',
  'Completion: whether every image was kept or given up within the granted time.',
  'Yield: the summed weight times quality of the good images kept, divided by the weight planned.',
  'Undetected bad share: images kept whose quality is below what is accepted and that nobody noticed, divided by the images planned.',
  'Tips used, and cost: tips, chips, instrument hours and operator hours at the prices of the scenario.',
];

export function INTERVALS({ level, comparisons }: Summary['confidence']): readonly string[] {
  return [
    `Intervals are ${numberText(level, SHARE)}: Student's t for means, Clopper and Pearson's for probabilities, order statistics for quantiles. Differences are paired by replication${comparisons > 1 ? `; their intervals hold jointly (Bonferroni over ${comparisons})` : ''}.`,
  ];
}

export function STEPS(workflows: readonly WorkflowName[]): readonly string[] {
  return [...new Set(workflows)].flatMap(sheetText);
}

export const BASE_LOGIC: readonly string[] = [
  'Each image is scanned in the order of the plan on a tip of its kind. Scanning wears the apex, and hazards strike the tip after random exposure (path, images, hours of scanning, or approaches); the quality of an image is the mean over its scan time of factors for resolution, tracking, drift and the state of the tip.',
  'What is noticed decides what follows: a flagged image is scanned again, and a flagged tip is cleaned or replaced. What nobody notices stays in the data.',
  'Steps begin only inside bookings and, where they need an operator, when one is present and free; a step that has begun is finished.',
];

export const ALGORITHMS: readonly string[] = [
  'Review: each finished scan is judged, with the sensitivity and false-alarm probability of the scenario; a review that finds no operator present is made on return, oldest first.',
  'Check: after the stated number of scans the tip is judged on a reference structure; images since its last passed check become suspect where the scenario says so.',
  'Watch: an event during a scan is noticed with a probability after a delay, and stops the scan.',
  'Replacement: before the next attempt, a tip is replaced that was flagged, has reached its allowed use, has too large a radius, or is of another kind; cleaning and reconditioning come first where the scenario allows tries.',
  'Attempts: a flagged or suspect image is scanned again at once while its region is in place, else when the plan is through, up to the allowed attempts; then it is given up.',
];

export const QUEUES: readonly string[] = [
  'Instruments that wait for an operator are served in order of arrival, then by number; late reviews are made oldest first, before the next step of their instrument.',
];

export const ENTRY_AND_EXIT: readonly string[] = [
  'All images are due from the start. An image leaves as good, as undetected bad, as given up, or as missing where what it needs ran out; these add up to the images planned.',
];

export const FAMILIES: readonly string[] = [
  'All values with their units, plausible ranges and sources are in inputs.csv. Step times with a usual value and a 90th percentile are lognormal, those with least, most frequent and greatest value triangular, single values fixed. Lifetimes are exponential, Weibull, lognormal, gamma, a bathtub (sum of two Weibull hazards) or a constant probability per unit, as inputs.csv names them; apex radii, wear coefficients and drift rates after a disturbance are lognormal.',
];

export const ASSUMPTIONS_OF_STRUCTURE: readonly string[] = [
  'Wear follows Archard’s law; the quality of a tip is one number; hazards of a tip are independent; regions are alike; drift is a rate without a direction that decays exponentially after each disturbance; operators neither learn nor tire.',
];

export const RUN_LENGTH: readonly string[] = [
  'A replication ends when every image is kept or given up, or when what is needed has run out. Time is counted in whole microseconds.',
];

export const RANDOM_NUMBERS: readonly string[] = [
  'Generator: Threefry4x32-20 (Salmon, Moraes, Dror and Shaw 2011), counter-based. Each draw is a function of seed, replication, purpose and indices, never of the order of asking, so that all strategies of a replication meet common random numbers; one uniform gives one variate by the inverse distribution function.',
];

export const EXECUTION: readonly string[] = [
  'Next-event time advance: events are ordered by time, then priority, then the order in which they were scheduled. Replications are independent tasks; neither threads nor machines change any result.',
];

export const VALIDATION: readonly string[] = [
  'The program is held by its tests to closed forms, published values and coverage of its intervals (tests/PROMISES.md); nothing of this scenario was compared with observed campaigns. Results say what follows from the inputs, not whether those are right.',
];
