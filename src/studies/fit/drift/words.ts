import type { NoDriftFit } from '../../../survival/drift-fit.js';
import type { DriftFitSummary, DriftKindFit, DriftParameters } from './results.js';
import type { Interval } from '../results.js';
import { numberText, PLAIN, type Scale, workScale } from '../../../wording/numbers.js';
import { type Answer, fullestWithin } from '../../../analysis/answer.js';
import { levelText } from '../../../analysis/effect-words.js';
import { AFTER } from '../../../analysis/how-long-to-wait.js';
import { capital } from '../../../wording/phrases.js';
import { intervalText } from '../report-words.js';

/** A rate in the unit in which people say it: picometres a second where it is slow. */
export function rateText(rate: number): string {
  return numberText(rate, rateScale(rate));
}

function rateScale(rate: number): Scale {
  return Math.abs(rate) < 0.01 && rate !== 0 ? { divisor: 1e-3, unit: 'pm/s' } : { divisor: 1, unit: 'nm/s' };
}

export function timeText(seconds: number): string {
  return numberText(seconds, workScale(seconds));
}

/** A value and its interval, each as it is shown. */
export interface Shown {
  readonly value: string;
  readonly interval: string;
}

function shownIn({ value, low, high }: Interval, scale: Scale): Shown {
  const scaled = (end: number | null) => (end === null ? null : end / scale.divisor);
  return { value: numberText(value, scale), interval: intervalText({ low: scaled(low), high: scaled(high) }) };
}

/** What is not clear has an upper end alone. */
function mayBeNone(interval: Interval, scale: Scale): Shown {
  const { high } = interval;
  return { value: 'not clear', interval: high === null ? 'open' : `at most ${numberText(high, scale)}` };
}

/** Every parameter of a kind with its name, as it is shown. */
export function parameterRows(
  { parameters, notTold }: Pick<DriftKindFit, 'notTold'> & { readonly parameters: DriftParameters },
  errors: Scale | null,
): Readonly<Record<keyof DriftParameters, Shown>> {
  const { rate, geometricSd, decay, steady, error } = parameters;
  const rates = rateScale(steady.value === 0 ? (steady.high ?? 0) : steady.value);
  return {
    rate: shownIn(rate, rateScale(rate.value)),
    geometricSd: notTold.includes('geometricSd') ? mayBeNone(geometricSd, PLAIN) : shownIn(geometricSd, PLAIN),
    decay: shownIn(decay, workScale(decay.value)),
    steady: notTold.includes('steady') ? mayBeNone(steady, rates) : shownIn(steady, rates),
    error: shownIn(error, errors ?? PLAIN),
  };
}

/** Unit of the error of a reading; null where it is a factor of the one stated. */
export function errorScale({ form, log }: DriftFitSummary): Scale | null {
  if (log.columns.some(({ role }) => role === 'error')) return null;
  return { divisor: 1, unit: form === 'rate' ? 'nm/s' : 'nm' };
}

export function errorName(summary: DriftFitSummary): string {
  return errorScale(summary) === null ? 'error of a reading, over the stated one' : 'error of a reading';
}

const WHY_NOT: Readonly<Record<NoDriftFit['reason'], string>> = {
  'too-few-events':
    'three disturbances at least are wanted, each with a reading of the rate, or with two displacements',
  'no-decay-seen': 'no rate is seen that falls with time',
  'no-finite-maximum':
    'the likelihood has no highest point for these readings, as where the rate does not fall, or readings agree without any error',
};

/** What came out: the rate after each kind of disturbance and how it falls, then the rest. */
export function driftAnswer(summary: DriftFitSummary): Answer {
  const { kinds, confidence } = summary;
  const draft = (most: number) =>
    kinds.slice(0, most).map((fit, place) => firstSentence(fit, summary, place === 0 ? confidence.level : null));
  return {
    headline: fullestWithin(kinds.map((_, place) => draft(kinds.length - place))),
    remarks: leftOutSentence(summary),
    findings: kinds.flatMap((fit) => [[...furtherSentences(fit, summary), settledSentence(fit, summary)].join(' ')]),
    decided: kinds.some(({ parameters }) => parameters !== null),
  };
}

/** `After handling the drift rate is 0.9 nm/s (95 % interval 0.8 to 1.1) and falls to 1/e in 8 min (7 to 9).` */
function firstSentence(
  { kind, parameters, reason, notTold }: DriftKindFit,
  summary: DriftFitSummary,
  level: number | null,
): string {
  if (parameters === null)
    return `${capital(AFTER[kind])} nothing could be fitted: ${WHY_NOT[reason ?? 'no-finite-maximum']}.`;
  const { rate, decay } = parameterRows({ parameters, notTold }, errorScale(summary));
  const before = level === null ? '' : levelText(level);
  return `${capital(AFTER[kind])} the drift rate is ${rate.value} (${before}${rate.interval}) and falls to 1/e in ${decay.value} (${decay.interval}).`;
}

function furtherSentences(
  { kind, parameters, notTold, ...fit }: DriftKindFit,
  summary: DriftFitSummary,
): readonly string[] {
  if (parameters === null) return [];
  const { geometricSd, steady } = parameterRows({ parameters, notTold }, errorScale(summary));
  const both = ({ value, interval }: Shown) => `${value} (${interval})`;
  return [
    `${capital(AFTER[kind])}: ${numberText(fit.readings)} readings after ${numberText(fit.disturbances)} disturbances.`,
    notTold.includes('geometricSd')
      ? `Whether this rate differs from disturbance to disturbance is unclear: the geometric standard deviation is not clearly above 1, and ${geometricSd.interval}.`
      : `From disturbance to disturbance that first rate varies with a geometric standard deviation of ${both(geometricSd)}.`,
    notTold.includes('steady')
      ? `There is no clear steady rate; it is ${steady.interval}.`
      : `A steady rate of ${both(steady)} stays.`,
  ];
}

function settledSentence({ kind, settled }: DriftKindFit, { settling }: DriftFitSummary): string {
  const after = timeText(settling);
  return settled === null
    ? `No disturbance by ${kind} has readings enough from the settling time of ${after} on; name another with --settling, or read for longer.`
    : `After a settling time of ${after} the drift rate is ${rateText(settled.typicalAverage.median)} as typical average and ${rateText(settled.typicalMaximum.median)} as typical maximum.`;
}

/** How many rows are left out; nothing where all are used. */
function leftOutSentence({ log }: DriftFitSummary): readonly string[] {
  const { notUsed, rows } = log;
  if (notUsed.length === 0) return [];
  return [
    `${numberText(notUsed.length)} of ${numberText(rows)} ${notUsed.length === 1 ? 'row of the table is' : 'rows of the table are'} left out, as asked by --skip: where these are other than the rest, what is fitted is off.`,
  ];
}
