import { LuckTable, PURPOSES } from '../../chance/luck.js';
import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { aalenJohansen } from '../../survival/aalen-johansen.js';
import { exponentialInterval, totalExposure } from '../../survival/few-events.js';
import type { FittedDistribution } from '../../survival/distributions.js';
import { asNoticed } from '../../survival/observation.js';
import { type Making, provenanceOf } from '../../analysis/about.js';
import { aboutLog } from './about-log.js';
import { fitCause } from './cause-fit.js';
import { CAUSE_NAMES } from '../../probe/causes.js';
import { livesIn, usualUnit } from './lives.js';
import type { HazardPrior } from './prior.js';
import { logNext } from './log-next.js';
import type { ReadLog } from './read-log.js';
import type { TipRow } from './rows.js';
import { type BluntingFit, FIT_FORMAT, type FitSummary, type KindFit } from './results.js';
import { counted } from '../../wording/phrases.js';
import { unitText } from './words.js';

/** What an analysis takes beside the log. */
export interface FitOptions extends Making {
  readonly seed: string;
  /** Day of the log, such as `2026-03-14`; null: the last date in it. */
  readonly date: string | null;
  /** Samples of each bootstrap; 0 for none. */
  readonly samples: number;
  readonly distributions: ReadonlyMap<Cause, FittedDistribution>;
  readonly units: ReadonlyMap<Cause, ExposureUnit>;
  /** In which unit a scenario counts a cause of a kind; null where it does not. */
  readonly unitBefore: (kind: string, cause: Cause) => ExposureUnit | null;
  /** What a scenario holds of a cause of a kind before the log; null where it holds nothing. */
  readonly priorOf: (kind: string, cause: Cause) => HazardPrior | null;
  readonly blunting: readonly BluntingFit[];
  readonly onProgress?: (progress: { readonly phase: string; readonly done: number; readonly of: number }) => void;
}

/** Confidence level of all intervals. */
const LEVEL = 0.95;

/** Analyses a log that was read: every cause of every kind. */
export function fitLog(log: ReadLog, options: FitOptions): FitSummary {
  const table = new LuckTable(options.seed);
  const kinds = [...new Set(log.rows.map(({ kind }) => kind))];
  const jobs = kinds.map((kind) => {
    const rows = log.rows.filter((row) => row.kind === kind);
    // That a cause ended none of many tips says something too, where a range was held of it.
    const isRanged = (cause: Cause) => {
      const prior = options.priorOf(kind, cause);
      return prior !== null && livesIn(rows, prior.per).length > 0;
    };
    return { kind, rows, causes: CAUSE_NAMES.filter((cause) => mayHave(rows, cause) || isRanged(cause)) };
  });
  const total = jobs.reduce((sum, { causes }) => sum + causes.length, 0);
  let done = 0;
  const fits = jobs.map(({ kind, rows, causes }, kindIndex): KindFit => {
    const per = usualUnit(rows);
    return {
      kind,
      tips: rows.length,
      ended: endings(rows),
      per,
      incidence: incidenceOf(
        rows,
        per,
        causes.filter((cause) => mayHave(rows, cause)),
      ),
      causes: causes.map((cause) => {
        options.onProgress?.({ phase: 'fits', done, of: total });
        done += 1;
        const unit = options.units.get(cause) ?? unitKnown(rows, options.unitBefore(kind, cause)) ?? per;
        const prior = options.priorOf(kind, cause);
        return fitCause(rows, {
          kind,
          cause,
          per: unit,
          prior: prior?.per === unit ? prior : null,
          distribution: options.distributions.get(cause) ?? null,
          level: LEVEL,
          samples: options.samples,
          draws: (sample, index) =>
            table.replication(sample).uniform(PURPOSES.logBootstrap, CAUSE_NAMES.indexOf(cause), kindIndex, index, 0),
        });
      }),
    };
  });
  return {
    format: FIT_FORMAT,
    formatVersion: 2,
    ...provenanceOf(options),
    log: aboutLog(log, options),
    seed: options.seed,
    confidence: { level: LEVEL },
    kinds: fits,
    blunting: options.blunting,
    logNext: logNext(log, fits),
    warnings: warningsOf(log, fits),
  };
}

/** Whether a cause ended a tip of these, or is suspected by name. */
function mayHave(rows: readonly TipRow[], cause: Cause): boolean {
  return rows.some(({ ending }) => ending.cause === cause || ending.suspect === cause);
}

function unitKnown(rows: readonly TipRow[], unit: ExposureUnit | null): ExposureUnit | null {
  return unit !== null && livesIn(rows, unit).length > 0 ? unit : null;
}

function endings(rows: readonly TipRow[]): KindFit['ended'] {
  const names = rows.map(({ ending }) => ending.cause ?? (ending.suspected ? 'suspicion' : 'sound'));
  const order = ['sound', 'suspicion', ...CAUSE_NAMES].filter((name) => names.some((each) => each === name));
  return Object.fromEntries(order.map((name) => [name, names.filter((each) => each === name).length]));
}

function incidenceOf(rows: readonly TipRow[], per: ExposureUnit, causes: readonly Cause[]): KindFit['incidence'] {
  const lives = asNoticed(livesIn(rows, per));
  const { causes: found } = aalenJohansen(lives, causes, LEVEL);
  return causes.map((cause, index) => ({
    cause,
    points: found[index].steps.map(({ time, incidence, low, high }) => ({
      exposure: time,
      value: incidence,
      low,
      high,
    })),
  }));
}

function warningsOf(log: ReadLog, kinds: readonly KindFit[]): readonly string[] {
  const warnings: string[] = [];
  if (Object.keys(log.columns.sound).length === 0)
    warnings.push(
      'the log does not say when a tip was last known to be sound: an event counts where somebody noticed it, which is later than it came, so lifetimes come out too long',
    );
  for (const { header } of log.columns.read.filter(({ role }) => role === 'environment'))
    warnings.push(
      `the environment, \`${header}\`, is not used in the fit: lifetimes in all of them are taken together; fit a log of each to tell them apart`,
    );
  for (const { kind, causes, tips } of kinds)
    if (causes.every(({ events }) => events === 0))
      warnings.push(
        noEvents(
          log.rows.filter((row) => row.kind === kind),
          kind,
          tips,
        ),
      );
  return warnings;
}

function noEvents(rows: readonly TipRow[], kind: string, tips: number): string {
  const per = usualUnit(rows);
  const { low } = exponentialInterval(totalExposure(livesIn(rows, per)), 0, LEVEL);
  return `no event of any cause in ${counted(tips, 'tip')} of ${kind}: all that is known is that the mean lifetime is at least ${low.toPrecision(3)} ${unitText(per)} (${LEVEL * 100} %, were the hazard constant)`;
}
