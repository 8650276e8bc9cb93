import { strategyLabels } from '../../report/charts/chart.js';
import { differences as chart } from '../../studies/compare/charts/differences.js';
import { differenceScale } from '../../report/measure-scale.js';
import { measureName } from '../../analysis/words.js';
import { estimateText } from '../../wording/numbers.js';
import { capital } from '../../wording/phrases.js';
import type { Difference, Summary } from '../../analysis/results.js';
import type { Estimate } from '../../statistics/estimate.js';
import { Figure } from '../../page/parts/figure.js';

/** Differences from the first strategy with their intervals, measure by measure. */
export function Differences({ summary }: { readonly summary: Summary }) {
  const { differences } = summary;
  if (differences.length === 0) return null;
  const labels = strategyLabels(summary);
  const measures = [...new Set(differences.map(({ measure }) => measure))];
  return (
    <Figure
      title={chart.title}
      caption={`Difference from “${summary.strategies[0].name}” with common random numbers; intervals hold together at 95 % (joint, by Bonferroni). Every panel has its own scale; the line stands at no difference.`}
      table={chart.table(summary)}
    >
      <div class="panels" role="img" aria-label={chart.alt(summary)}>
        {measures.map((measure) => (
          <Panel
            title={capital(measureName(measure))}
            rows={differences.filter((each) => each.measure === measure).map((each) => rowOf(each, summary, labels))}
          />
        ))}
      </div>
    </Figure>
  );
}

/** One estimate in a panel. */
export interface PanelRow {
  readonly name: string;
  /** In the order of the palette, from 0. */
  readonly place: number;
  readonly estimate: Estimate;
  readonly text: string;
  readonly interval: string;
}

function rowOf({ strategy, estimate, measure }: Difference, summary: Summary, labels: readonly string[]): PanelRow {
  const place = summary.strategies.findIndex(({ name }) => name === strategy);
  const text = estimateText(estimate, differenceScale(measure, summary), 'difference');
  return { name: labels[place], place, estimate, text: text.value, interval: text.interval };
}

/** Estimates about a line at nothing, on one scale. */
export function Panel({ title, rows }: { readonly title: string; readonly rows: readonly PanelRow[] }) {
  const ends = rows.flatMap(({ estimate: { low, high } }) => [low, high]);
  const low = Math.min(0, ...ends);
  const high = Math.max(0, ...ends);
  const width = high > low ? high - low : 1;
  const at = (value: number) => `${4 + (92 * (value - low)) / width}%`;
  return (
    <div class="panel">
      <h4>{title}</h4>
      {rows.map(({ name, place, estimate, text, interval }) => (
        <div class="estimate">
          <span class="name">{name}</span>
          <span class="number">
            {text} {interval === '' ? null : <small>({interval})</small>}
          </span>
          <span class="track">
            <span class="zero" style={{ left: at(0) }} />
            <span
              class={`span strategy-${(place % 8) + 1}`}
              style={{ left: at(estimate.low), width: `${(92 * (estimate.high - estimate.low)) / width}%` }}
            />
            <span class={`point strategy-${(place % 8) + 1}`} style={{ left: at(estimate.value) }} />
          </span>
        </div>
      ))}
    </div>
  );
}
