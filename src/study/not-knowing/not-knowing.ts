import { keptBy, knownWithin, unknownInputs } from '../../scenario/uncertainty.js';
import type { UnknownInput } from '../../scenario/unknown-input.js';
import type { Progress } from '../about.js';
import type { Difference } from '../results.js';
import { type Compared, drawCampaigns, type DrawnCampaigns } from './draws.js';
import { type Open, rankedInputs, reachesOtherSign } from './log-next.js';
import type { KnownDifference, KnownMeasure, NotKnowing, UncertainInput } from './results.js';
import { differenceSeries, ownSeries } from './series.js';
import { centralSpan, expectedOver } from './spans.js';

/** Draws of what is not known, unless others are asked for. */
export const DRAWS = 200;
/** Few will do, as what they leave uncertain is taken out again: Sun, Apley and Staum, Operations Research 59, 998 (2011). */
const REPLICATIONS = 32;
const REPLICATIONS_ALONE = 16;
/** Campaigns with a draw each, from which the spans of one campaign and the mean change are read. */
const CAMPAIGNS = 1000;
const CAMPAIGNS_ALONE = 400;

/** What was compared, and which differences were found. */
export interface FoundDifferences extends Compared {
  readonly differences: readonly Difference[];
}

/** Luck and not-knowing apart; null where nothing in the scenario says how far it is known. */
export function notKnowingOf(
  found: FoundDifferences,
  draws: number,
  onProgress: (progress: Progress) => void,
): NotKnowing | null {
  const inputs = unknownInputs(found.loaded.raw);
  if (inputs.length === 0) return null;
  const { count } = found.collectors[0];
  const sizeOf = (replications: number, campaigns: number) => ({
    draws,
    replications: Math.min(replications, count),
    campaigns: Math.min(campaigns, count),
  });
  const size = sizeOf(REPLICATIONS, CAMPAIGNS);
  const isOne = inputs.length === 1;
  const sizeAlone = isOne ? size : sizeOf(REPLICATIONS_ALONE, CAMPAIGNS_ALONE);
  const drawn = drawCampaigns(found, inputs, size, (done, of) => {
    onProgress({ phase: 'not-knowing', done, of });
  });
  const differences = knownDifferences(found, drawn);
  const strategies = knownMeasures(found, drawn);
  const aloneOf = (input: UnknownInput, index: number) =>
    isOne
      ? drawn
      : drawCampaigns(found, [input], sizeAlone, (done, of) => {
          onProgress({ phase: 'what to log next', done: index * of + done, of: inputs.length * of });
        });
  return {
    draws,
    replicationsPerDraw: size.replications,
    replicationsAlone: sizeAlone.replications,
    campaigns: size.campaigns,
    inputs: inputs.map((input) => describedInput(found, input, drawn)),
    strategies,
    differences,
    logNext: rankedInputs(inputs, openIn(found, strategies, differences), aloneOf),
  };
}

function describedInput({ loaded }: Compared, input: UnknownInput, { clipped }: DrawnCampaigns): UncertainInput {
  const { path, description, from, parameters } = input;
  return {
    path,
    description,
    from,
    parameters: parameters.map((parameter) => ({
      path: parameter.path,
      value: String(parameter.written),
      within: knownWithin(parameter).text,
    })),
    clipped: clipped.get(path) ?? 0,
    keptBy: keptBy(loaded.raw, input),
  };
}

function knownMeasures(found: Compared, drawn: DrawnCampaigns): readonly KnownMeasure[] {
  return ownSeries(found).map(({ strategy, measure, here, rowsIn, singleIn }) => {
    const single = singleIn(drawn);
    const { mean, span, variance } = expectedOver(rowsIn(drawn), single, here);
    return {
      strategy,
      measure,
      atValues: mean,
      luckAlone: centralSpan(here.slice(0, single.length)),
      luckAndNotKnowing: centralSpan(single),
      notKnowing: span,
      variance,
    };
  });
}

function knownDifferences(found: FoundDifferences, drawn: DrawnCampaigns): readonly KnownDifference[] {
  return differenceSeries(found).flatMap(({ strategy, measure, here, rowsIn, singleIn }) => {
    const difference = found.differences.find((each) => each.strategy === strategy && each.measure === measure);
    if (difference === undefined) return [];
    const { ofDraws, span, variance } = expectedOver(rowsIn(drawn), singleIn(drawn), here);
    const { value } = difference.estimate;
    return [
      {
        strategy,
        measure,
        atValues: difference.estimate,
        notKnowing: span,
        otherSign: ofDraws.filter((each) => each * value < 0).length / ofDraws.length,
        turns: difference.verdict !== 'not told apart' && reachesOtherSign(value, span),
        variance,
      },
    ];
  });
}

/** What is ranked: the differences, or the only strategy's own measures. */
function openIn(
  found: FoundDifferences,
  strategies: readonly KnownMeasure[],
  differences: readonly KnownDifference[],
): readonly Open[] {
  if (differences.length === 0)
    return ownSeries(found).map((series, i) => ({ series, together: strategies[i].notKnowing, told: null }));
  return differenceSeries(found).map((series, i) => {
    const isTold = found.differences.some(
      ({ strategy, measure, verdict }) =>
        strategy === series.strategy && measure === series.measure && verdict !== 'not told apart',
    );
    return { series, together: differences[i].notKnowing, told: isTold ? differences[i].atValues.value : null };
  });
}
