import { show } from '../../../scenario/show.js';
import { counted } from '../../../wording/phrases.js';
import type { DriftKindFit } from './results.js';

/** Fewer disturbances than this hardly say how rates differ between them (common practice, no source). */
const FEW_DISTURBANCES = 5;
/** Readings that end before so many times the decay leave what decays and what stays to each other. */
const ENOUGH_DECAYS = 2;

interface Readings {
  /** Disturbances with a single displacement. */
  readonly alone: number;
  /** Disturbances whose displacement or rate is below zero as a whole. */
  readonly falling: readonly string[];
  /** Seconds from a disturbance to the first reading of all, and to the last. */
  readonly first: number;
  readonly last: number;
}

/** What a reader should know before relying on a fit of drift. */
export function driftWarnings(
  { kind, disturbances, parameters }: Pick<DriftKindFit, 'kind' | 'disturbances' | 'parameters'>,
  { alone, falling, first, last }: Readings,
): readonly string[] {
  const warnings: string[] = [];
  if (alone > 0)
    warnings.push(
      `${counted(alone, 'disturbance')} of ${kind} with one displacement alone: it says nothing, as only the way from one to the next counts`,
    );
  if (falling.length > 0)
    warnings.push(
      `readings of ${counted(falling.length, 'disturbance')} of ${kind} go the other way on the whole (${falling.slice(0, 3).map(show).join(', ')}${falling.length > 3 ? ' …' : ''}): count displacements and rates along the way the drift goes`,
    );
  if (parameters === null) return warnings;
  const decay = parameters.decay.value;
  if (disturbances < FEW_DISTURBANCES)
    warnings.push(
      `only ${counted(disturbances, 'disturbance')} of ${kind}: how rates differ between disturbances is hardly known`,
    );
  if (first > decay)
    warnings.push(
      `the first reading after ${kind} comes later than the drift has fallen to 1/e: the rate right after is an extrapolation`,
    );
  if (last < ENOUGH_DECAYS * decay)
    warnings.push(
      `readings after ${kind} end before the drift has decayed (twice the time to 1/e): the decay and the steady rate cannot be estimated apart`,
    );
  return warnings;
}
