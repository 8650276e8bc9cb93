import { counted, listed } from '../../wording/phrases.js';
import { declaredOf } from '../../chance/life.js';
import { declaredOf as declaredCause } from '../../probe/causes.js';
import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import {
  FEW_EVENTS,
  type DistributionComparison,
  type Missing,
  NOT_TOLD_APART,
} from '../../survival/compare-distributions.js';
import type { NoFitReason } from '../../survival/fit-life.js';
import type { FittedDistribution } from '../../survival/distributions.js';
import type { DistributionChoice } from './choose-distribution.js';
import { livesIn } from './lives.js';
import type { TipRow } from './rows.js';
import type { SuspicionBounds } from './results.js';

function eventsText(events: number, cause: Cause): string {
  return `${counted(events, 'event')} of ${declaredCause(cause).title}`;
}

const COUNTED: Readonly<Record<ExposureUnit, string>> = {
  image: 'images',
  distance: 'path',
  hour: 'hours of scanning',
  approach: 'approaches',
};

/** What an exposure unit counts, in words. */
export function countedIn(unit: ExposureUnit): string {
  return COUNTED[unit];
}

const UNITS: Readonly<Record<ExposureUnit, string>> = {
  image: 'images',
  distance: 'mm',
  hour: 'h',
  approach: 'approaches',
};

/** What stands behind an amount of exposure. */
export function unitText(unit: ExposureUnit): string {
  return UNITS[unit];
}

export function distributionName(distribution: FittedDistribution): string {
  return declaredOf(distribution).title;
}

export function notFittedBecause(reason: NoFitReason): string {
  return reason === 'no-events' ? 'no event was seen' : 'the likelihood has no highest point for these lifetimes';
}

const MISSING: Readonly<Record<Missing, string>> = {
  events: 'more events would say most',
  'times-of-events': 'the events lie in wide intervals; a look at the tip more often would say most',
  'lives-run-to-an-event': 'tips that are used until they fail, and not taken off sound before, would say most',
};

/** One or two sentences on which distribution holds. */
export function distributionVerdict(
  { events, ranked, verdict }: DistributionComparison,
  choice: DistributionChoice | null,
  cause: Cause,
): string {
  if (events === 0) return `This cause ended none of these tips.`;
  if (choice === null) return `No distribution could be fitted to ${eventsText(events, cause)}.`;
  const { missing, best } = verdict;
  const others = verdict.notToldApart.filter((distribution) => distribution !== best).map(distributionName);
  const because =
    best === null
      ? ''
      : others.length === 0
        ? `The ${distributionName(best)} distribution is best by AIC, by ${((ranked[1]?.aic ?? ranked[0].aic) - ranked[0].aic).toFixed(1)} to the next.`
        : `By AIC the ${distributionName(best)} distribution is best, but ${listed(others)} ${others.length === 1 ? 'is' : 'are'} not clearly different from it (within ${NOT_TOLD_APART}).`;
  const few = events < FEW_EVENTS ? ` With ${counted(events, 'event')} a shape is hardly known.` : '';
  const accelerated = choice.acceleration?.found.isTaken === true;
  const taken = accelerated
    ? ` With what load and pace do, the ${distributionName(choice.fit.distribution)} distribution is taken.`
    : choice.fit.distribution === best
      ? ''
      : ` Taken is the ${distributionName(choice.fit.distribution)} distribution.`;
  const next = missing === null ? '' : ` ${MISSING[missing].replace(/^./u, (first) => first.toUpperCase())}.`;
  return `${because}${few}${taken}${next}`;
}

interface Situation {
  readonly kind: string;
  readonly cause: Cause;
  readonly per: ExposureUnit;
  readonly events: number;
  readonly leftOut: number;
  /** Tips that another cause ended before the first look. */
  readonly silent: number;
  /** Whether something goes into a scenario. */
  readonly hasHazard: boolean;
  readonly suspicion: SuspicionBounds | null;
  /** Whether the log says when tips were last known to be sound. */
  readonly hasSound: boolean;
  readonly rows: readonly TipRow[];
}

/** What a reader should know before relying on a fit. */
export function warningsOf({
  cause,
  per,
  events,
  leftOut,
  silent,
  hasHazard,
  suspicion,
  hasSound,
  rows,
}: Situation): readonly string[] {
  const warnings: string[] = [];
  if (events === 0)
    warnings.push(
      `no event of ${declaredCause(cause).title}: with the range held before, the log says only how seldom it comes; if tips that ended so are called otherwise in the log, or are not in it, this is too long a lifetime`,
    );
  else if (events < FEW_EVENTS)
    warnings.push(
      `only ${eventsText(events, cause)}: the interval is all that is known; a shape wants at least ${FEW_EVENTS} events`,
    );
  if (!hasHazard && events > 0)
    warnings.push(
      `${eventsText(events, cause)} ${events === 1 ? 'gives' : 'give'} no hazard alone; a scenario's range for it, with \`--into\`, does together with the log`,
    );
  const unsure = livesIn(rows, per).filter((life) => life.cause === cause && life.row.sound[per] === undefined).length;
  if (hasSound && unsure > 0)
    warnings.push(
      `${eventsText(unsure, cause)} without a last known sound use: taken where it was noticed, so these lifetimes come out too long`,
    );
  if (leftOut > 0)
    warnings.push(
      `${counted(leftOut, 'tip')} left out: the row does not say ${countedIn(per)}, or that of earlier use, above zero`,
    );
  if (silent > 0)
    warnings.push(
      `${counted(silent, 'tip')} of which this log says nothing here: another cause ended ${silent === 1 ? 'it' : 'them'} before ${silent === 1 ? 'it was' : 'they were'} seen to be sound`,
    );
  if (suspicion !== null)
    warnings.push(
      `${counted(suspicion.tips, 'tip')} taken off on suspicion ${suspicion.tips === 1 ? 'counts' : 'count'} as sound, which makes this hazard look smaller than it may be; see both bounds, and look at such a tip and write the cause, or “sound”`,
    );
  return warnings;
}
