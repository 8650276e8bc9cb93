import { measureOf } from '../../src/study/differences.js';
/** Invented findings on what is not known, in the shape of the contract, to go with an invented comparison. */

import type { NotKnowing, Span } from '../../src/study/not-knowing/results.js';
import { COMPARED, type ComparedMeasure } from '../../src/study/compared-measures.js';
import type { ComparisonResult, Summary } from '../../src/study/results.js';

const around = (value: number, by: number): Span => ({ low: value - by, high: value + by });

function meanOf(summary: Summary, strategy: number, measure: ComparedMeasure): number {
  return summary.strategies[strategy].measures[measureOf(measure)].value;
}

/** `names` are those of the uncertain inputs. */
function unknownFor(summary: Summary, names: readonly string[]): NotKnowing {
  const strategies = summary.strategies.flatMap(({ name }, place) =>
    COMPARED.map((measure) => {
      const atValues = meanOf(summary, place, measure);
      return {
        ...{ strategy: name, measure, atValues },
        luckAlone: around(atValues, 0.2 * atValues),
        luckAndNotKnowing: around(atValues, 0.3 * atValues),
        notKnowing: around(atValues, 0.15 * atValues),
        variance: { luck: (0.1 * atValues) ** 2, notKnowing: (0.07 * atValues) ** 2 },
      };
    }),
  );
  const differences = summary.differences.flatMap(({ strategy, measure, estimate }) => {
    const weighed = COMPARED.find((each) => each === measure);
    if (weighed === undefined) return [];
    const { value } = estimate;
    return [
      {
        ...{ strategy, measure: weighed, atValues: estimate },
        notKnowing: around(value, 1.2 * Math.abs(value)),
        otherSign: 0.065,
        turns: estimate.low * estimate.high > 0,
        variance: { luck: value * value, notKnowing: value * value },
      },
    ];
  });
  const ranked = differences.length > 0 ? differences : strategies;
  return {
    draws: 200,
    replicationsPerDraw: 16,
    inputs: names.map((name, place) => ({
      path: `tips.sharp.hazards.${place}`,
      description: name,
      from: place % 2 === 0 ? 'fit' : 'range',
      parameters: [
        { path: `tips.sharp.hazards.${place}.life.mean`, value: '14 images', within: '8 images to 24 images' },
      ],
      clipped: place,
      keptBy: place === 0 ? [summary.strategies[0].name] : [],
    })),
    strategies,
    differences,
    logNext: names.map((name, place) => ({
      path: `tips.sharp.hazards.${place}`,
      description: name,
      effects: ranked.map(({ strategy, measure, notKnowing }) => ({
        ...{ strategy, measure, notKnowing },
        share: place === 2 ? null : 1.1 - 0.6 * place,
        couldTurn: place === 0 && differences.length > 0,
      })),
    })),
  };
}

/** A comparison of which three inputs are uncertain. */
export function withUnknown(result: ComparisonResult, hostile?: string): ComparisonResult {
  const names = ['sharp, breakage: life', 'sharp: wear', 'coated, coating: life'].map((name) => hostile ?? name);
  return { ...result, summary: { ...result.summary, notKnowing: unknownFor(result.summary, names) } };
}
