import { adviceOf, byTime } from '../../../analysis/worth/words.js';
import { measureName } from '../../../analysis/words.js';
import type { Known } from '../charts/parameter-uncertainty.js';
import { estimateLine, numberText, SHARE, spanText } from '../../../wording/numbers.js';
import { differenceScale } from '../../../report/measure-scale.js';
import { SAVES, valuesTable } from '../../../report/worth-tables.js';
import { htmlTable, type Table } from '../../../report/table.js';
import { listed } from '../../../wording/phrases.js';
import { html } from '../../../report/text.js';

/** A share to whole per cents, as a share of a span is not known better. */
function wholeShare(share: number): string {
  return numberText(Math.round(100 * share) / 100, SHARE);
}

/** What each difference comes to within parameter uncertainty. */
export function differencesTable(known: Known): Table {
  return {
    columns: [
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'Difference, as simulated', numeric: true },
      { label: 'Within parameter uncertainty', numeric: true },
      { label: 'Other sign in', numeric: true },
      { label: 'So' },
    ],
    rows: known.parameterUncertainty.differences.map(
      ({ strategy, measure, atValues, parameterUncertainty, otherSign, turns }) => {
        const scale = differenceScale(measure, known);
        const isTold = atValues.low > 0 || atValues.high < 0;
        return [
          strategy,
          measureName(measure),
          estimateLine(atValues, scale, 'difference'),
          spanText(parameterUncertainty, scale, 'difference'),
          `${wholeShare(otherSign)} of draws`,
          turns ? 'open' : isTold ? 'keeps its sign' : 'no clear difference anyway',
        ];
      },
    ),
  };
}

/** What was drawn, and from what. */
export function inputsTable({ parameterUncertainty }: Known): Table {
  return {
    columns: [
      { label: 'Not known' },
      { label: 'Value' },
      { label: 'In the scenario', numeric: true },
      { label: 'How far known' },
      { label: 'From' },
      { label: 'Set by itself in' },
    ],
    rows: parameterUncertainty.inputs.flatMap(({ description, from, parameters, keptBy }) =>
      parameters.map(({ path, value, within }) => [
        description,
        path,
        value,
        within,
        from === 'fit' ? 'a fit' : 'a range given by hand',
        keptBy.length === 0 ? 'no strategy' : listed(keptBy),
      ]),
    ),
  };
}

/** How the draws were made, in plain text; the text for a proposal has it too. */
export function drawnText({ parameterUncertainty, confidence }: Known): string {
  const { draws, replicationsPerDraw, inputs } = parameterUncertainty;
  const clipped = inputs
    .filter((input) => input.clipped > 0)
    .map((input) => `${input.clipped} of “${input.description}”`);
  const kept = inputs.filter((input) => input.keptBy.length > 0).map((input) => `“${input.description}”`);
  return [
    `What the scenario says is uncertain was drawn ${numberText(draws)} times, inputs independent of each other, the same for all strategies, and each draw was run in ${numberText(replicationsPerDraw)} replications, with the random numbers that the scenario’s own values meet too; a range given by hand counts as the middle 95 % of a normal distribution about its own middle, of the logarithm where the value is positive.`,
    `Spans hold the middle ${numberText(confidence.level, SHARE)}; the noise of so few replications is taken out of those of means (analysis of variance).`,
    ...(kept.length === 0
      ? []
      : [`A strategy that sets a value of ${listed(kept)} itself keeps that value in every draw.`]),
    clipped.length === 0
      ? 'No draw had to be brought back to what the schema allows.'
      : `Draws brought back to what the schema allows: ${listed(clipped)}.`,
  ].join(' ');
}

/** Random variation and parameter uncertainty apart: `figures` are HTML. */
export function uncertaintySection(known: Known, figures: readonly string[]): string {
  const differences =
    known.parameterUncertainty.differences.length === 0
      ? ''
      : `${htmlTable(differencesTable(known), 'Differences within parameter uncertainty')}\n`;
  return `<section aria-labelledby="parameter-uncertainty">
<h2 id="parameter-uncertainty">Random variation and parameter uncertainty</h2>
<p>${html(drawnText(known))}</p>
${differences}${figures.join('\n')}
${measureFirst(known)}
<h3>What was drawn</h3>
${htmlTable(inputsTable(known), 'Uncertain values of the scenario')}
</section>`;
}

/** What to measure first; where there is one strategy only, what the variance of its time is due to. */
function measureFirst({ parameterUncertainty, confidence, scenario }: Known): string {
  const { worth } = parameterUncertainty;
  const values = valuesTable(worth, scenario.currency);
  if (worth.strategies.length < 2)
    return `<h3>What the variance of time is due to</h3>\n${htmlTable(values, 'Shares of the variance of the mean instrument time over the draws (Sobol’ indices)')}`;
  return `<h3>What to measure first</h3>
<p>${html(adviceOf(worth, byTime(worth, confidence.level)).join(' '))}</p>
${htmlTable(values, SAVES)}`;
}
