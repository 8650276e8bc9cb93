import { unitText } from '../../study/fit/words.js';
import type { BluntingFit, CauseFit, FitSummary, Interval, LawFit } from '../../study/fit/results.js';
import { numberText, PLAIN, SHARE, type Scale } from '../format.js';

/** An interval as people write it; an end that the log does not set is left open. */
export function intervalText({ low, high }: Pick<Interval, 'low' | 'high'>): string {
  if (low === null) return high === null ? 'open' : `at most ${numberText(high)}`;
  return high === null ? `at least ${numberText(low)}` : `${numberText(low)} to ${numberText(high)}`;
}

/** Value with its unit, and the interval. */
export function valueText(interval: Interval, scale: Scale = PLAIN): string {
  return `${numberText(interval.value, scale)} (${intervalText(interval)})`;
}

export function unitScale({ per }: Pick<CauseFit, 'per'>): Scale {
  return { divisor: 1, unit: unitText(per) };
}

/** `breakage of sharp`. */
export function causeTitle({ kind, cause }: Pick<CauseFit, 'kind' | 'cause'>): string {
  return `${cause} of ${kind}`;
}

/** Parameters with their intervals, amounts with their unit. */
export function parametersText({ parameters }: Pick<LawFit, 'parameters'>): string {
  return parameters.map((parameter) => `${parameter.name} ${valueText(parameter)}`).join('; ');
}

export function chosenLaw(fit: CauseFit): LawFit | undefined {
  return fit.laws.find(({ law }) => law === fit.chosen?.law);
}

/** The p-value of the goodness of fit, as it stands in a table. */
export function goodnessText({ goodness }: CauseFit): string {
  return goodness === null ? 'not tested' : `p = ${goodness.p.toFixed(2)}`;
}

/** What the goodness of fit leaves out of account, in a sentence; none where it is nothing. */
function asideSentences(fits: readonly CauseFit[]): readonly string[] {
  const named = fits.filter(({ goodness, acceleration }) => goodness !== null && acceleration?.isTaken === true);
  return named.length === 0
    ? []
    : [`The goodness of fit was tested with load and pace left aside for ${named.map(causeTitle).join(', ')}.`];
}

export function allCauses({ kinds }: FitSummary): readonly CauseFit[] {
  return kinds.flatMap(({ causes }) => causes);
}

/** Sentences on what came out, the first of which says how far the log goes. */
export function resultSentences(summary: FitSummary): readonly string[] {
  const { log } = summary;
  const causes = allCauses(summary);
  const fitted = causes.filter(({ hazard }) => hazard !== null);
  const few = fitted.filter(({ events }) => events < 5).length;
  const poor = fitted.filter(({ goodness }) => goodness !== null && goodness.p < 0.05);
  return [
    ...leftOutSentence(log),
    `${numberText(log.used)} of ${numberText(log.rows)} rows of the log were used; ${fitted.length === 1 ? 'one hazard was' : `${String(fitted.length)} hazards were`} fitted${few === 0 ? '' : `, ${String(few)} of them from fewer than five events`}.`,
    ...(poor.length === 0
      ? []
      : [
          `The law does not go well with the lives for ${poor.map(causeTitle).join(', ')} (p below 0.05): look at the probability plot.`,
        ]),
    ...asideSentences(causes),
    ...(summary.logNext.length === 0
      ? []
      : [`What to log next, first of all: ${summary.logNext[0].what}: ${summary.logNext[0].advice}.`]),
  ];
}

/** How many rows are left out, and what that does; nothing where all are used. */
function leftOutSentence({ notUsed, rows }: FitSummary['log']): readonly string[] {
  if (notUsed.length === 0) return [];
  const are = notUsed.length === 1 ? 'row of the log is' : 'rows of the log are';
  return [
    `${numberText(notUsed.length)} of ${numberText(rows)} ${are} left out, as asked by --skip: where tips that failed are left out more often than others, every life comes out too long, and where sound ones are, too short.`,
  ];
}

/** What radii say, row by row. */
export function bluntingRows({
  kind,
  tips,
  readings,
  coefficient,
  coefficientSpread,
  radius,
  radiusSpread,
}: BluntingFit): readonly string[] {
  const count = `${numberText(readings)} of ${numberText(tips)} tips`;
  return [
    kind,
    count,
    valueText(coefficient),
    valueText(coefficientSpread),
    valueText(radius),
    valueText(radiusSpread),
  ];
}

export function share(value: number): string {
  return numberText(value, SHARE);
}
