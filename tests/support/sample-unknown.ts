import { measureOf } from '../../src/analysis/differences.js';
/** Invented findings on parameter uncertainty, in the shape of the contract, to go with an invented comparison. */

import type { ParameterUncertainty, Span } from '../../src/analysis/parameter-uncertainty.js';
import { COMPARED, type ComparedMeasure } from '../../src/analysis/compared-measures.js';
import type { Worth } from '../../src/analysis/worth/results.js';
import type { ComparisonResult, Summary } from '../../src/analysis/results.js';

const around = (value: number, by: number): Span => ({ low: value - by, high: value + by });

function meanOf(summary: Summary, strategy: number, measure: ComparedMeasure): number {
  return summary.strategies[strategy].measures[measureOf(measure)].value;
}

function invented(hours: number): Worth {
  return {
    hours: { value: hours, low: hours / 2, high: 2 * hours },
    cost: { value: 40 * hours, low: 0, high: 80 * hours },
    wrong: 0.1,
  };
}

/** `names` are those of the uncertain inputs. */
function unknownFor(summary: Summary, names: readonly string[]): ParameterUncertainty {
  const strategies = summary.strategies.flatMap(({ name }, place) =>
    COMPARED.map((measure) => {
      const atValues = meanOf(summary, place, measure);
      return {
        ...{ strategy: name, measure, atValues },
        randomVariation: around(atValues, 0.2 * atValues),
        withParameterUncertainty: around(atValues, 0.3 * atValues),
        parameterUncertainty: around(atValues, 0.15 * atValues),
        variance: { random: (0.1 * atValues) ** 2, parameterUncertainty: (0.07 * atValues) ** 2 },
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
        parameterUncertainty: around(value, 1.2 * Math.abs(value)),
        otherSign: 0.065,
        turns: estimate.low * estimate.high > 0,
        variance: { random: value * value, parameterUncertainty: value * value },
      },
    ];
  });
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
    worth: {
      ...{ draws: 200, replicationsPerDraw: 16, wrongNow: 0.2 },
      strategies: summary.strategies.map(({ name }) => ({ name, hours: 8, cost: 700 })),
      chosen: { byHours: summary.strategies[0].name, byCost: summary.strategies[0].name },
      perfect: invented(0.5),
      values: names.map((description, place) => ({
        ...{ path: `tips.sharp.hazards.${place}`, description, isGroup: false, within: '8 images to 24 images' },
        ...invented(0.4 / (1 + place)),
        indices: { first: 0.5 / (1 + place), total: 0.6 / (1 + place) },
      })),
      records: [],
    },
  };
}

/** A comparison of which three inputs are uncertain. */
export function withUnknown(result: ComparisonResult, hostile?: string): ComparisonResult {
  const names = ['sharp, breakage: life', 'sharp: wear', 'coated, coating: life'].map((name) => hostile ?? name);
  return { ...result, summary: { ...result.summary, parameterUncertainty: unknownFor(result.summary, names) } };
}
