import type { Estimate, MeasureSummary, Summary } from '../../study/results.js';
import {
  estimateLine,
  estimateText,
  moneyScale,
  numberText,
  PLAIN,
  SHARE,
  type EstimateText,
  type Scale,
} from '../format.js';
import { timeScale } from '../charts/chart.js';
import { leadTimeSentences } from '../lead-time.js';
import { measureScale } from '../measure-scale.js';
import { framed, htmlTable } from '../table.js';
import { html } from '../text.js';

/** One column of the headline table, for pages, terminals and proposals alike. */
export interface HeadlineColumn {
  readonly label: string;
  readonly cells: readonly HeadlineCell[];
}

export interface HeadlineCell extends EstimateText {
  readonly beside: string | null;
}

function percentiles(measure: MeasureSummary, scale: Scale): string {
  const at = (probability: number): string => {
    const found = measure.quantiles.find((each) => Math.abs(each.probability - probability) < 1e-9);
    return found === undefined ? '?' : numberText(found.value / scale.divisor);
  };
  return `9 in 10 ≤ ${at(0.9)}`;
}

function cell(estimate: Estimate, scale: Scale, beside: string | null = null): HeadlineCell {
  return { ...estimateText(estimate, scale), beside };
}

export function headlineColumns(summary: Summary): readonly HeadlineColumn[] {
  const time = timeScale(summary);
  const money = moneyScale(summary.scenario.currency);
  const column = (label: string, of: (strategy: Summary['strategies'][number]) => HeadlineCell): HeadlineColumn => ({
    label,
    cells: summary.strategies.map(of),
  });
  return [
    column('Instrument time', ({ measures }) =>
      cell(measures.instrumentTime, time, percentiles(measures.instrumentTime, time)),
    ),
    column('Operator time', ({ measures }) => cell(measures.operatorTime, measureScale('operatorTime', summary))),
    column('Yield', ({ measures }) => cell(measures.yield, SHARE)),
    column('Undetected bad share', ({ measures }) => cell(measures.silentBadShare, SHARE)),
    column('Apparent yield', ({ measures }) => cell(measures.apparentYield, SHARE)),
    column('Tips', ({ measures }) => cell(measures.tips, PLAIN, percentiles(measures.tips, PLAIN))),
    column('Cost', ({ measures }) => cell(measures.cost, money)),
    summary.allocation === null
      ? column('Ever finished', (strategy) => cell(strategy.finishes, SHARE))
      : column('Finished in time', (strategy) => cell(strategy.withinAllocation ?? strategy.finishes, SHARE)),
  ];
}

/** What the columns mean; the text for proposals says it too. */
export const HEADLINE_NOTE =
  'Yield weighs each good image by its quality and by what it is worth; nothing else counts in it. ' +
  'The undetected bad share is the share of the planned images that are kept though they are bad, which nobody notices; ' +
  'the apparent yield adds what quality those have, and no verdict uses it. Operator time is all that an operator does, preparation at the bench included. A chip that is opened costs its whole price.';

export function headlineSection(summary: Summary): string {
  const columns = headlineColumns(summary);
  const head = columns.map((column) => `<th scope="col" class="number">${html(column.label)}</th>`).join('');
  const rows = summary.strategies.map((strategy, place) => {
    const cells = columns.map(({ cells: of }) => {
      const { value, interval, beside } = of[place];
      const small = [interval, beside ?? '']
        .filter((text) => text !== '')
        .map((text) => `<small>${html(text)}</small>`);
      return `<td class="number"><b>${html(value)}</b>${small.join('')}</td>`;
    });
    const kind = strategy.workflow === 'hop' ? 'array-hop' : 'swap and relocate';
    const colour = `var(--strategy-${String((place % 8) + 1)})`;
    return `<tr><th scope="row"><span class="bar" style="background:${colour}"></span>${html(strategy.name)}<small>${kind}</small></th>${cells.join('')}</tr>`;
  });
  const level = numberText(summary.confidence.level, SHARE);
  const granted = summary.allocation === null ? '' : ` Granted time: ${summary.allocation.text}.`;
  const caption = `Means over ${numberText(summary.replications)} replications with ${level} intervals.${granted}`;
  return `<section aria-labelledby="headline">
<h2 id="headline">At a glance</h2>
${framed(
  `<table class="headline">
<caption><span>${html(caption)}</span></caption>
<thead><tr><th scope="col">Strategy</th>${head}</tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>`,
  'At a glance',
)}
<p class="note">${html([HEADLINE_NOTE, ...leadTimeSentences(summary.strategies)].join(' '))}</p>${cutTable(summary)}
</section>`;
}

function cutTable(summary: Summary): string {
  const { allocation } = summary;
  if (allocation === null) return '';
  const rows = summary.strategies.flatMap(({ name, cut }) =>
    cut === null
      ? []
      : [
          [
            name,
            estimateLine(cut.yield, SHARE),
            estimateLine(cut.silentBadShare, SHARE),
            estimateLine(cut.missing, PLAIN),
            estimateLine(cut.tips, PLAIN),
          ],
        ],
  );
  if (rows.length === 0) return '';
  const columns = ['Strategy', 'Yield', 'Undetected bad share', 'Images missing', 'Tips'];
  return `\n<h3>If the work stops at the end of the granted time</h3>\n${htmlTable(
    { columns: columns.map((label, place) => ({ label, numeric: place > 0 })), rows },
    `The same replications cut after ${allocation.text}: no step starts later, what was not kept is missing`,
  )}`;
}
