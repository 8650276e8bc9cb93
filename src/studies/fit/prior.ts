import * as z from 'zod';
import { log1p } from '../../chance/elementary.js';
import { type ExposureUnit, readExposure } from '../../scenario/exposure.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { writtenPath } from '../../scenario/paths.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { dataAt, entryOf, isMap } from '../../scenario/schema-walk.js';
import { CENTRAL_DEVIATES } from '../../scenario/uncertainty.js';
import { FEW_EVENTS, type DistributionComparison } from '../../survival/compare-distributions.js';
import { toFree } from '../../survival/free.js';
import { type FittedDistribution, isFitted, toFit, type DistributionParameter } from '../../survival/distributions.js';
import type { Observation } from '../../survival/observation.js';
import { type NormalPrior, normalPriors, type Posterior, posteriorOf } from '../../survival/posterior.js';
import type { DistributionChoice } from './choose-distribution.js';
import { rounded, roundedAll } from './hazard.js';
import type { FittedHazard } from './results.js';

const ends = z.array(z.union([z.number(), z.string()])).length(2);

/** What a scenario assumes of a hazard's life before the log. */
export interface HazardPrior {
  /** A probability per unit is a constant hazard, and counts as exponential. */
  readonly distribution: FittedDistribution;
  readonly per: ExposureUnit;
  /** In the order of the distribution's parameters; the ends hold the central 95 %. */
  readonly parameters: readonly { readonly name: string; readonly low: number; readonly high: number }[];
}

/** The range of a hazard's life in a scenario, as it was before any log; null where there is none. */
export function hazardPrior({ base, register }: LoadedScenario, kind: string, cause: Cause): HazardPrior | null {
  const hazards = new Map(Object.entries(base.tips)).get(kind)?.hazards ?? [];
  const index = hazards.findIndex((hazard) => hazard.cause === cause);
  if (index < 0 || hazards.filter((hazard) => hazard.cause === cause).length > 1) return null;
  const { life, per } = hazards[index];
  const fitted = life.distribution === 'probability' ? 'exponential' : life.distribution;
  if (!isFitted(fitted)) return null;
  const path = ['tips', kind, 'hazards', index];
  const said = dataAt(base, [...path, 'uncertainty']);
  // What a log alone has said is no range held before it.
  if (isMap(said) && Object.hasOwn(said, 'covariance') && !Object.hasOwn(said, 'prior')) return null;
  const kept = entryOf(said, 'prior');
  const endsOf = (name: string): readonly unknown[] | null => {
    const before = entryOf(kept, name);
    const pair = ends.safeParse(before);
    if (pair.success) return pair.data;
    const range = register.find((value) => value.path === writtenPath(base, [...path, 'life', name]))?.range;
    return range === undefined || range === null ? null : [range.low, range.high];
  };
  const distribution = toFit(fitted);
  const parameters = distribution.parameters.map((parameter) => {
    const ends = endsOf(life.distribution === 'probability' ? 'perUnit' : parameter.name)?.map((end) =>
      life.distribution === 'probability' ? meanAt(end) : amountOf(parameter, per, end),
    );
    const [low, high] = (ends ?? []).toSorted((a, b) => a - b);
    return { name: parameter.name, low: rounded(low), high: rounded(high) };
  });
  const isWhole = parameters.every(
    ({ low, high }, i) =>
      low < high && [low, high].every((end) => Number.isFinite(toFree(distribution.parameters[i], end))),
  );
  return isWhole ? { distribution: distribution.distribution, per, parameters } : null;
}

function amountOf({ isExposure }: DistributionParameter, per: ExposureUnit, written: unknown): number {
  if (typeof written !== 'number' && typeof written !== 'string') return Number.NaN;
  if (!isExposure) return Number(written);
  const reading = readExposure(per, written);
  return reading.ok ? reading.value : Number.NaN;
}

/** Mean life, in units of exposure, under a probability per unit. */
function meanAt(probability: unknown): number {
  return typeof probability === 'number' ? -1 / log1p(-probability) : Number.NaN;
}

/** A distribution whose AIC is so much above the least has essentially no support (K. P. Burnham and D. R. Anderson, Model Selection, 2nd ed. 2002, section 2.6). */
const NO_SUPPORT = 10;

/**
 * What prior and log say together: null where the log has enough events and speaks against the scenario's distribution, or another distribution is asked
 * for, or load and pace are taken into it; the log then speaks alone.
 */
export function updated(
  { distribution, parameters }: HazardPrior,
  observations: readonly Observation[],
  { ranked, events }: DistributionComparison,
  choice: DistributionChoice | null,
  asked: FittedDistribution | null,
  level: number,
): Posterior | null {
  const own = ranked.find((fit) => fit.distribution === distribution);
  const isRefuted = events >= FEW_EVENTS && (own === undefined || own.aic - ranked[0].aic > NO_SUPPORT);
  const isOther = (asked !== null && asked !== distribution) || choice?.acceleration?.found.isTaken === true;
  if (isRefuted || isOther) return null;
  const priors = toFit(distribution).parameters.map((parameter, i): NormalPrior => {
    const [low, high] = [toFree(parameter, parameters[i].low), toFree(parameter, parameters[i].high)];
    return { centre: (low + high) / 2, standardDeviation: (high - low) / (2 * CENTRAL_DEVIATES) };
  });
  const centres = priors.map(({ centre }) => centre);
  return posteriorOf(distribution, observations, normalPriors(priors), centres, level);
}

/** What a scenario says of a cause where its range and the log were put together. */
export function hazardAfter(cause: Cause, posterior: Posterior, prior: HazardPrior, load: number | null): FittedHazard {
  return {
    cause,
    per: prior.per,
    distribution: posterior.distribution,
    parameters: posterior.parameters.map(({ name, value }) => ({ name, value: rounded(value) })),
    acceleration: { pace: null, load: null, referenceLoad: load === null ? null : rounded(load) },
    uncertainty: {
      of: posterior.parameters.map(({ name }) => name),
      covariance: roundedAll(posterior.covariance),
      prior: Object.fromEntries(prior.parameters.map(({ name, low, high }) => [name, [low, high] as const])),
    },
  };
}
