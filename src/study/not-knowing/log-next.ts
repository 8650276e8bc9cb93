import type { UnknownInput } from '../../scenario/unknown-input.js';
import type { ComparedMeasure } from '../compared-measures.js';
import type { LogNext, Span } from './results.js';
import type { Series } from './series.js';
import type { Expected } from './spans.js';

/** A difference, or a measure, with what all inputs together leave open of it. */
export interface Open {
  readonly series: Series;
  readonly together: Span;
  /** The difference where it is told apart at the scenario's values; null where it has no sign to keep. */
  readonly told: number | null;
}

/** What each input alone leaves open, most of all first. `aloneOf` gives what a series comes to where it alone is drawn. */
export function rankedInputs(
  inputs: readonly UnknownInput[],
  open: readonly Open[],
  aloneOf: (index: number) => (series: Series) => Expected,
): readonly LogNext[] {
  const entries = inputs.map((input, index): LogNext => {
    const alone = aloneOf(index);
    const effects = open.map(({ series, together, told }) => {
      const { span } = alone(series);
      const { strategy, measure } = series;
      const whole = together.high - together.low;
      const share = whole > 0 ? (span.high - span.low) / whole : null;
      return { strategy, measure, notKnowing: span, share, couldTurn: told !== null && reachesOtherSign(told, span) };
    });
    return { path: input.path, description: input.description, effects };
  });
  return entries.toSorted((a, b) => most(b, ['time']) - most(a, ['time']) || most(b, null) - most(a, null));
}

/** Whether a span about a difference holds zero or the other sign. */
export function reachesOtherSign(difference: number, { low, high }: Span): boolean {
  return difference > 0 ? low <= 0 : high >= 0;
}

/** The largest share that an input explains of these measures, or of any. */
function most({ effects }: LogNext, measures: readonly ComparedMeasure[] | null): number {
  return effects
    .filter(({ measure }) => measures === null || measures.includes(measure))
    .reduce((largest, { share }) => Math.max(largest, share ?? 0), 0);
}
