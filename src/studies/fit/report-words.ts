import { declaredOf } from '../../probe/causes.js';
import { type Answer, fullestWithin } from '../../analysis/answer.js';
import { capital, counted, listed } from '../../wording/phrases.js';
import { distributionName, unitText } from './words.js';
import type { BluntingFit, CauseFit, FitSummary, Interval, DistributionFit, PosteriorLife } from './results.js';
import { numberText, PLAIN, plainSpaces, SHARE, type Scale } from '../../wording/numbers.js';

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
  return `${declaredOf(cause).title} of ${kind}`;
}

/** Parameters with their intervals, amounts with their unit. */
export function parametersText({
  parameters,
}: {
  readonly parameters: readonly (Interval & { readonly name: string })[];
}): string {
  return parameters.map((parameter) => `${parameter.name} ${valueText(parameter)}`).join('; ');
}

export function chosenDistribution(fit: CauseFit): DistributionFit | undefined {
  return fit.distributions.find(({ distribution }) => distribution === fit.chosen?.distribution);
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

/** A distribution that a range held before and the log give together. */
export function updatedText({ distribution }: PosteriorLife): string {
  return `${distributionName(distribution)}, updated`;
}

/** What a range held before and the log say together; nothing where the log speaks alone. */
function updateSentence(fit: CauseFit): readonly string[] {
  if (fit.posterior === null) return [];
  const parameters = fit.posterior.parameters.map(
    ({ name, before, ...interval }) => `${name} ${valueText(interval)}, held before ${intervalText(before)}`,
  );
  return [
    `${capital(causeTitle(fit))}, per ${fit.per}: ${parameters.join('; ')} (range as lognormal, put together with ${counted(fit.events, 'event')}).`,
  ];
}

export function allCauses({ kinds }: FitSummary): readonly CauseFit[] {
  return kinds.flatMap(({ causes }) => causes);
}

/** What came out: hazards with their median lifetimes, then how far the log goes. */
export function fitAnswer(summary: FitSummary): Answer {
  const { log } = summary;
  const causes = allCauses(summary);
  const fitted = causes.filter(({ hazard }) => hazard !== null);
  const few = fitted.filter(({ events }) => events < 5).length;
  const poor = fitted.filter(({ goodness }) => goodness !== null && goodness.p < 0.05);
  const warned = causes.filter(({ warnings }) => warnings.length > 0).length;
  return {
    headline: headlineOf(summary, fitted),
    remarks: [
      ...(poor.length === 0
        ? []
        : [
            `The distribution fits the lifetimes badly for ${poor.map(causeTitle).join(', ')} (p below 0.05): look at the probability plot.`,
          ]),
      ...(warned === 0
        ? []
        : [
            `There ${warned === 1 ? 'is a note' : `are notes`} on ${counted(warned, 'cause')}, such as few events; in the report ${warned === 1 ? 'it stands' : 'they stand'} below the hazards.`,
          ]),
    ],
    findings: [
      `${numberText(log.used)} of ${numberText(log.rows)} rows of the log were used, ${numberText(log.leftOut)} left out, ${numberText(log.notUsed.length)} faulty${few === 0 ? '' : `; ${counted(few, 'hazard')} ${few === 1 ? 'was' : 'were'} fitted from fewer than five events`}.`,
      ...causes.flatMap(updateSentence),
      ...asideSentences(causes),
      ...(summary.logNext.length === 0
        ? []
        : [`What to log next, first of all: ${summary.logNext[0].what}: ${summary.logNext[0].advice}.`]),
    ],
    decided: fitted.length > 0,
  };
}

/** What was left out, where it was; then `The log gives 2 hazards. Median lifetimes: breakage of sharp 24.4 approaches (95 % interval 14.8 to 44.3) and …`; as many as have room. */
function headlineOf({ confidence, log }: FitSummary, fitted: readonly CauseFit[]): readonly string[] {
  const first = leftOutSentence(log);
  if (fitted.length === 0) return [...first, 'No hazard could be fitted to this log.'];
  const known = fitted.flatMap((fit) => (fit.median === null ? [] : [{ fit, median: fit.median }]));
  const gives = `The log gives ${counted(fitted.length, 'hazard')}.`;
  const draft = (most: number, hasIntervals: boolean) => {
    const said = known.slice(0, most).map(({ fit, median }, place) => {
      const level = place === 0 ? `${numberText(confidence.level, SHARE)} interval ` : '';
      const ends = hasIntervals || place === 0 ? ` (${level}${intervalText(median)})` : '';
      return `${causeTitle(fit)} ${numberText(median.value, unitScale(fit))}${ends}`;
    });
    const more = known.length - said.length;
    const heading =
      said.length === 1 && more === 0 ? 'Median lifetime from the log alone' : 'Median lifetimes from the log alone';
    return [...first, gives, `${heading}: ${listed([...said, ...(more > 0 ? [`${String(more)} more`] : [])])}.`];
  };
  if (known.length === 0) return [...first, gives];
  const counts = known.map((_, place) => known.length - place);
  return fullestWithin([draft(known.length, true), ...counts.map((most) => draft(most, false))]).map(plainSpaces);
}

/** How many rows are left out, and what that does; nothing where all are used. */
function leftOutSentence({ notUsed, rows }: FitSummary['log']): readonly string[] {
  if (notUsed.length === 0) return [];
  const are = notUsed.length === 1 ? 'row of the log is' : 'rows of the log are';
  return [
    `${numberText(notUsed.length)} of ${numberText(rows)} ${are} left out (--skip); if these tips ended otherwise than the rest, lifetimes are biased.`,
  ];
}

/** What radii say, row by row. */
export function bluntingRows({
  kind,
  tips,
  readings,
  coefficient,
  coefficientGeometricSd,
  radius,
  radiusGeometricSd,
}: BluntingFit): readonly string[] {
  const count = `${numberText(readings)} of ${numberText(tips)} tips`;
  return [
    kind,
    count,
    valueText(coefficient),
    valueText(coefficientGeometricSd),
    valueText(radius),
    valueText(radiusGeometricSd),
  ];
}

export function share(value: number): string {
  return numberText(value, SHARE);
}
