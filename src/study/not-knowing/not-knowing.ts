import { keptBy, knownWithin, unknownInputs } from '../../scenario/uncertainty.js';
import type { UnknownInput } from '../../scenario/unknown-input.js';
import type { StudyOptions } from '../about.js';
import type { Difference } from '../results.js';
import { Meter } from '../work/meter.js';
import { answered, type Work } from '../work/work.js';
import { campaignsHere, type Compared, DrawnCampaigns } from './draws.js';
import { rankedInputs, reachesOtherSign } from './log-next.js';
import type { KnownDifference, KnownMeasure, NotKnowing, UncertainInput } from './results.js';
import { differenceSeries, ownSeries, type Series } from './series.js';
import { centralSpan, type Expected, expectedOver } from './spans.js';

/** Draws of what is not known, unless others are asked for. */
export const DRAWS = 200;
/**
 * Replications of each draw. Few will do, as what they leave uncertain is taken out again; more draws tell more (Y. Sun,
 * D. W. Apley and J. Staum, Operations Research 59, 998, 2011).
 */
const REPLICATIONS = 16;

/** What was compared, and which differences were found. */
export interface FoundDifferences extends Compared {
  readonly differences: readonly Difference[];
}

/** Luck and not-knowing apart; null where nothing in the scenario says how far it is known. */
export function* notKnowingOf(
  found: FoundDifferences,
  draws: number,
  onProgress: StudyOptions['onProgress'],
): Work<NotKnowing | null> {
  const inputs = unknownInputs(found.loaded.raw);
  if (inputs.length === 0) return null;
  const size = { draws, replications: REPLICATIONS };
  const here = yield* campaignsHere(found, size);
  const drawn = new DrawnCampaigns(found, inputs, size, here);
  const alone = inputs.length === 1 ? [drawn] : inputs.map((input) => new DrawnCampaigns(found, [input], size, here));
  const meter = new Meter('not-knowing', onProgress);
  yield* answered(meter.over([...new Set([drawn, ...alone])].flatMap(({ errands }) => errands)));
  const expectedIn =
    ({ values }: DrawnCampaigns) =>
    (series: Series) =>
      expectedOver(series.compared, series.of(values), series.of(here), draws);
  const together = expectedIn(drawn);
  const strategies = ownSeries(found).map((series): KnownMeasure => {
    const { mean, span, variance } = together(series);
    return {
      ...{ strategy: series.strategy, measure: series.measure, atValues: mean },
      luckAlone: centralSpan(series.of(here)),
      luckAndNotKnowing: centralSpan(series.of(drawn.values)),
      ...{ notKnowing: span, variance },
    };
  });
  const told = differenceSeries(found).flatMap((series) => {
    const difference = found.differences.find(
      ({ strategy, measure }) => strategy === series.strategy && measure === series.measure,
    );
    return difference === undefined ? [] : [{ series, known: knownDifference(difference, series, together(series)) }];
  });
  const open =
    told.length === 0
      ? ownSeries(found).map((series, i) => ({ series, together: strategies[i].notKnowing, told: null }))
      : told.map(({ series, known }) => ({
          ...{ series, together: known.notKnowing },
          told: known.atValues.low * known.atValues.high > 0 ? known.atValues.value : null,
        }));
  return {
    draws,
    replicationsPerDraw: size.replications,
    inputs: inputs.map((input) => describedInput(found, input, drawn)),
    strategies,
    differences: told.map(({ known }) => known),
    logNext: rankedInputs(inputs, open, (index) => expectedIn(alone[index])),
  };
}

function knownDifference(
  { estimate, verdict }: Difference,
  { strategy, measure }: Series,
  { ofDraws, span, variance }: Expected,
): KnownDifference {
  return {
    ...{ strategy, measure, atValues: estimate, notKnowing: span },
    otherSign: ofDraws.filter((each) => each * estimate.value < 0).length / ofDraws.length,
    turns: verdict !== 'not told apart' && reachesOtherSign(estimate.value, span),
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
    keptBy: keptBy(loaded.raw, input),
  };
}
