import { keptBy, knownWithin, type UnknownInput } from '../../../scenario/uncertainty.js';
import type { StudyOptions } from '../../../analysis/about.js';
import type { Difference } from '../../../analysis/results.js';
import { drawsOf } from '../../../analysis/worth/drawn.js';
import { worthIn } from '../../../analysis/worth/worth.js';
import { Meter } from '../../../execution/progress.js';
import { completed, type Work } from '../../../execution/work.js';
import { campaignsHere, type Compared, DrawnCampaigns } from './draws.js';
import type {
  KnownDifference,
  KnownMeasure,
  ParameterUncertainty,
  Span,
  UncertainInput,
} from '../../../analysis/parameter-uncertainty.js';
import { differenceSeries, ownSeries, type Series } from './series.js';
import { centralSpan, type Expected, expectedOver } from './spans.js';

/** Draws of parameter uncertainty, unless others are asked for. */
export const DRAWS = 200;
/**
 * Replications of each draw. Few will do, as what they leave uncertain is taken out again; more draws tell more (Y. Sun,
 * D. W. Apley and J. Staum, Operations Research 59, 998, 2011).
 */
export const REPLICATIONS = 16;

/** What was compared, and which differences were found. */
export interface FoundDifferences extends Compared {
  readonly differences: readonly Difference[];
}

/** Random variation and parameter uncertainty apart; null where nothing in the scenario says how far it is known. */
export function* parameterUncertaintyOf(
  found: FoundDifferences,
  draws: number,
  onProgress: StudyOptions['onProgress'],
): Work<ParameterUncertainty | null> {
  const { loaded, seed } = found;
  const { inputs } = loaded;
  if (inputs.length === 0) return null;
  const size = { draws, replications: REPLICATIONS };
  const here = yield* campaignsHere(found, size);
  const drawn = new DrawnCampaigns(found, inputs, size, here);
  const names = found.strategies.map(({ name }) => name);
  const meter = new Meter('parameter-uncertainty', onProgress);
  yield* completed(meter.over(drawn.tasks));
  const together = (series: Series) => expectedOver(series.compared, series.of(drawn.values), series.of(here), draws);
  const strategies = ownSeries(found).map((series): KnownMeasure => {
    const { mean, span, variance } = together(series);
    return {
      ...{ strategy: series.strategy, measure: series.measure, atValues: mean },
      randomVariation: centralSpan(series.of(here)),
      withParameterUncertainty: centralSpan(series.of(drawn.values)),
      ...{ parameterUncertainty: span, variance },
    };
  });
  const differences = differenceSeries(found).flatMap((series) => {
    const difference = found.differences.find(
      ({ strategy, measure }) => strategy === series.strategy && measure === series.measure,
    );
    return difference === undefined ? [] : [knownDifference(difference, series, together(series))];
  });
  return {
    draws,
    replicationsPerDraw: size.replications,
    inputs: inputs.map((input) => describedInput(found, input, drawn)),
    strategies,
    differences,
    worth: worthIn(loaded, names, drawsOf(inputs, seed, size), drawn.values, seed),
  };
}

function knownDifference(
  { estimate, verdict }: Difference,
  { strategy, measure }: Series,
  { ofDraws, span, variance }: Expected,
): KnownDifference {
  return {
    ...{ strategy, measure, atValues: estimate, parameterUncertainty: span },
    otherSign: ofDraws.filter((each) => each * estimate.value < 0).length / ofDraws.length,
    turns: verdict !== 'no clear difference' && reachesOtherSign(estimate.value, span),
    variance,
  };
}

function describedInput({ loaded }: Compared, input: UnknownInput, drawn: DrawnCampaigns): UncertainInput {
  const { path, description, from, parameters } = input;
  return {
    path,
    description,
    from,
    parameters: parameters.map((parameter) => {
      const { low, high } = knownWithin(parameter);
      return { path: parameter.path, value: String(parameter.written), within: `${low} to ${high}` };
    }),
    clipped: drawn.clipped(input),
    keptBy: keptBy(loaded.strategies, input),
  };
}

/** Whether a span about a difference holds zero or the other sign. */
function reachesOtherSign(difference: number, { low, high }: Span): boolean {
  return difference > 0 ? low <= 0 : high >= 0;
}
