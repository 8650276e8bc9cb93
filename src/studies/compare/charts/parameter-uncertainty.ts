import { numberText, type Scale, SHARE, signedText, spanText } from '../../../wording/numbers.js';
import { listed } from '../../../wording/phrases.js';
import type { ParameterUncertainty, Span } from '../../../analysis/parameter-uncertainty.js';
import { COMPARED, type ComparedMeasure } from '../../../analysis/compared-measures.js';
import type { Summary } from '../../../analysis/results.js';
import { measureName } from '../../../analysis/words.js';
import { differenceScale, measureScale } from '../../../report/measure-scale.js';
import { padded } from '../../../report/charts/axes.js';
import { type Chart, looksOf, strategyLabels } from '../../../report/charts/chart.js';
import { forest } from '../../../report/charts/forest.js';

/** A comparison that parts random variation from parameter uncertainty. */
export type Known = Summary & { readonly parameterUncertainty: ParameterUncertainty };

const WITHOUT = 'random variation alone';
const WITH = 'with parameter uncertainty';
const LOOKS = looksOf([WITHOUT, WITH]);

/** Both spans of one strategy, in the unit of its panel, and a point for the mean. */
function row(name: string, { divisor }: Scale, value: number, without: Span, within: Span) {
  const span = ({ low, high }: Span) => ({ low: low / divisor, high: high / divisor });
  return {
    name,
    items: [
      { look: WITHOUT, ...span(without), value: value / divisor },
      { look: WITH, ...span(within) },
    ],
  };
}

export const parameterUncertainty: Chart<Known> = {
  id: 'parameter-uncertainty',
  title: 'Random variation and parameter uncertainty apart',
  caption: (known) =>
    'Above, the middle 95 % of single campaigns: solid by random variation alone, at the scenario’s values; dashed with parameter uncertainty too. ' +
    (known.differences.length === 0
      ? 'More campaigns narrow neither; more log narrows the dashed one towards the solid one.'
      : `Below, the expected difference from “${known.strategies[0].name}”: solid what the simulation leaves open at the scenario’s values, dashed what parameter uncertainty does. More replications narrow the solid line, a longer log the dashed one.`),
  alt: (known) =>
    `Pairs of lines, one panel a measure. ${listed(
      known.parameterUncertainty.strategies
        .filter(({ measure }) => measure === 'time')
        .map(
          ({ strategy, randomVariation, withParameterUncertainty }) =>
            `${strategy}, one campaign: ${spanText(randomVariation, measureScale('time', known))} by random variation alone, ${spanText(withParameterUncertainty, measureScale('time', known))} with parameter uncertainty`,
        ),
    )}.`,
  drawing: (known) => {
    const labels = strategyLabels(known);
    const campaign = (measure: ComparedMeasure) =>
      known.parameterUncertainty.strategies
        .filter((each) => each.measure === measure)
        .map(({ atValues, randomVariation, withParameterUncertainty }, place) =>
          row(labels[place], measureScale(measure, known), atValues, randomVariation, withParameterUncertainty),
        );
    const difference = (measure: ComparedMeasure) =>
      known.parameterUncertainty.differences
        .filter((each) => each.measure === measure)
        .map(({ atValues, parameterUncertainty: unknown }, place) =>
          row(labels[place + 1], differenceScale(measure, known), atValues.value, atValues, unknown),
        );
    const panels = (note: string, rowsOf: typeof campaign, scaleOf: typeof measureScale, lines: { at: number }[]) =>
      COMPARED.map((measure) => {
        const rows = rowsOf(measure);
        const { unit } = scaleOf(measure, known);
        const ends = rows.flatMap(({ items }) => items.flatMap(({ low, high }) => [low, high]));
        const domain = padded([...lines.map(({ at }) => at), ...ends], 0.08, 1e-3);
        return {
          title: measureName(measure),
          note,
          x: { title: unit === '' ? measureName(measure) : unit, domain },
          lines,
          rows,
        };
      });
    return forest({
      looks: LOOKS,
      legend: { symbol: 'stroke' },
      columns: 3,
      step: 44,
      isSpread: true,
      panels: [
        ...panels('one campaign', campaign, measureScale, []),
        ...(known.differences.length === 0
          ? []
          : panels(`expected difference from ${labels[0]}`, difference, differenceScale, [{ at: 0 }])),
      ],
    });
  },
  table: (known) => ({
    columns: [
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'Mean', numeric: true },
      { label: 'One campaign, random variation alone', numeric: true },
      { label: 'One campaign, with parameter uncertainty', numeric: true },
      { label: 'Mean, with parameter uncertainty', numeric: true },
      { label: 'Of the variance, parameter uncertainty', numeric: true },
    ],
    rows: [
      ...known.parameterUncertainty.strategies.map((each) => {
        const scale = measureScale(each.measure, known);
        return [
          each.strategy,
          measureName(each.measure),
          numberText(each.atValues, scale),
          spanText(each.randomVariation, scale),
          spanText(each.withParameterUncertainty, scale),
          spanText(each.parameterUncertainty, scale),
          shareText(each.variance),
        ];
      }),
      ...known.parameterUncertainty.differences.map((each) => {
        const scale = differenceScale(each.measure, known);
        return [
          `${each.strategy}, difference`,
          measureName(each.measure),
          signedText(each.atValues.value, scale),
          '',
          '',
          spanText(each.parameterUncertainty, scale, 'difference'),
          shareText(each.variance),
        ];
      }),
    ],
  }),
};

function shareText({
  random,
  parameterUncertainty: unknown,
}: {
  readonly random: number;
  readonly parameterUncertainty: number;
}): string {
  return random + unknown > 0 ? numberText(unknown / (random + unknown), SHARE) : '';
}
