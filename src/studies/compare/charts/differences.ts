import type { Estimate } from '../../../statistics/estimate.js';
import { estimateLine, estimateText, numberText, type Scale, SHARE } from '../../../wording/numbers.js';
import { listed } from '../../../wording/phrases.js';
import { isCompletion, measureOf } from '../../../analysis/differences.js';
import { COMPARED, COMPLETIONS } from '../../../analysis/compared-measures.js';
import type { Difference, Summary } from '../../../analysis/results.js';
import { judgedWord } from '../../../analysis/effect-words.js';
import { measureName } from '../../../analysis/words.js';
import { differenceScale } from '../../../report/measure-scale.js';
import { padded } from '../../../report/charts/axes.js';
import { type Chart, strategyLooks } from '../../../report/charts/chart.js';
import { forest } from '../../../report/charts/forest.js';

interface Panel {
  readonly measure: Difference['measure'];
  readonly title: string;
  /** Scale of the absolute difference. */
  readonly absolute: Scale;
}

function panels(summary: Summary): readonly Panel[] {
  // Where every campaign of every strategy is complete, completion tells nothing.
  const isTold = (measure: Difference['measure']) =>
    summary.differences.some((difference) => difference.measure === measure) &&
    !(isCompletion(measure) && summary.strategies.every((strategy) => strategy[measure]?.value === 1));
  return [...COMPLETIONS, ...COMPARED].filter(isTold).map((measure) => ({
    measure,
    title: measureName(measure),
    absolute: differenceScale(measure, summary),
  }));
}

/** The difference in percent of the first strategy's mean, or in its own unit where that would mislead or cannot be. */
function shown(difference: Difference, panel: Panel, summary: Summary): { estimate: Estimate; scale: Scale } {
  const own = { estimate: difference.estimate, scale: panel.absolute };
  const { measure } = panel;
  if (measure === 'undetectedBadShare' || isCompletion(measure)) return own;
  const mean = summary.strategies[0].measures[measureOf(measure)].value;
  if (!(mean > 0)) return own;
  const { value, low, high } = difference.estimate;
  return { estimate: { value: value / mean, low: low / mean, high: high / mean }, scale: SHARE };
}

export const differences: Chart = {
  id: 'differences',
  title: 'Paired differences',
  caption: (summary) =>
    `Difference from “${summary.strategies[0].name}” with common random numbers, in percent of its mean (completion and undetected bad share in percentage points). ` +
    `The intervals hold together at ${numberText(summary.confidence.level, SHARE)} (joint, by Bonferroni); where one includes zero there is no clear difference. Every panel has its own scale.`,
  alt: (summary) =>
    `Points with intervals about a zero line, one panel a measure. ${listed(
      panels(summary).flatMap((panel) =>
        summary.differences
          .filter((difference) => difference.measure === panel.measure)
          .map((difference) => {
            const { estimate, scale } = shown(difference, panel, summary);
            return `${difference.strategy}, ${panel.title}: ${estimateLine(estimate, scale, 'difference')}`;
          }),
      ),
    )}.`,
  drawing: (summary) => {
    if (summary.differences.length === 0) return null;
    const looks = strategyLooks(summary);
    return forest({
      looks,
      columns: 3,
      step: 46,
      panels: panels(summary).map((panel) => {
        const rows = summary.differences
          .filter((difference) => difference.measure === panel.measure)
          .map((difference) => {
            const { estimate, scale } = shown(difference, panel, summary);
            const at = summary.strategies.findIndex((strategy) => strategy.name === difference.strategy);
            const item = {
              look: looks[at].name,
              value: estimate.value / scale.divisor,
              low: estimate.low / scale.divisor,
              high: estimate.high / scale.divisor,
              text: estimateText(estimate, scale, 'difference').value,
            };
            return { name: looks[at].name, unit: scale.unit, items: [item] };
          });
        const [{ unit }] = rows;
        const ends = rows.flatMap(({ items: [{ low, high }] }) => [low, high]);
        return {
          title: panel.title,
          x: { title: unit === '' ? panel.title : unit, domain: padded([0, ...ends], 0.2, unit === '' ? 1 : 0.1) },
          lines: [{ at: 0 }],
          rows,
        };
      }),
    });
  },
  table: (summary) => ({
    columns: [
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'Difference', numeric: true },
      { label: 'Of the first’s mean', numeric: true },
      { label: 'Verdict' },
    ],
    rows: panels(summary).flatMap((panel) =>
      summary.differences
        .filter((difference) => difference.measure === panel.measure)
        .map((difference) => {
          const relative = shown(difference, panel, summary);
          return [
            difference.strategy,
            panel.title,
            estimateLine(difference.estimate, panel.absolute, 'difference'),
            relative.scale === SHARE ? estimateLine(relative.estimate, SHARE, 'difference') : '',
            judgedWord(difference, difference.verdict),
          ];
        }),
    ),
  }),
};
