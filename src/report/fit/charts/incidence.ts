import { capital } from '../../text.js';
import { max } from 'simple-statistics';
import type { Cause } from '../../../scenario/schema/scenario.js';
import { CAUSES } from '../../../study/fit/endings.js';
import type { FitSummary, KindFit } from '../../../study/fit/results.js';
import { countedIn } from '../../../study/fit/words.js';
import { SCHEMA, type Chart } from '../../charts/chart.js';
import { chartConfig } from '../../charts/config.js';
import { STRATEGY_DASHES, STRATEGY_TONES } from '../../palette.js';
import { share } from '../words.js';
import { evenly, panelSize, stepsFrom } from './panels.js';

const MOST_KINDS = 8;

function kindsOf({ kinds }: FitSummary): readonly KindFit[] {
  return kinds.filter(({ incidence }) => incidence.some(({ points }) => points.length > 0)).slice(0, MOST_KINDS);
}

/** The same colour and dash for a cause in every panel; those of places behind the laws'. */
function causeScales(present: readonly Cause[]) {
  const domain = CAUSES.filter((cause) => present.includes(cause));
  const place = (cause: Cause) => CAUSES.indexOf(cause) + 3;
  return {
    color: { domain: [...domain], range: domain.map((cause) => STRATEGY_TONES[place(cause)].light) },
    dash: { domain: [...domain], range: domain.map((cause) => [...STRATEGY_DASHES[CAUSES.indexOf(cause)]]) },
  };
}

function lastShare(points: KindFit['incidence'][number]['points']): number {
  return points.at(-1)?.value ?? 0;
}

export const incidence: Chart<FitSummary> = {
  id: 'incidence',
  title: 'What ends the tips?',
  caption: () =>
    'Share of tips that each cause has ended by then, all causes at work together (Aalen and Johansen), with 95 % bands; each event where it was noticed. Unlike one minus the survival in the next picture, these shares add up: together with the tips that are still sound they make the whole.',
  alt: (summary) =>
    `A panel for each kind; ${kindsOf(summary)
      .map(
        ({ kind, incidence: causes }) =>
          `${kind}: ${causes.map(({ cause, points }) => `${cause} ends ${share(lastShare(points))}`).join(', ')}`,
      )
      .join('; ')}.`,
  spec: (summary) => {
    const kinds = kindsOf(summary);
    if (kinds.length === 0) return null;
    const { color, dash } = causeScales(kinds.flatMap(({ incidence: causes }) => causes.map(({ cause }) => cause)));
    const legend = {
      orient: 'bottom',
      title: null,
      columns: 5,
      symbolType: 'stroke',
      symbolStrokeWidth: 2.5,
      symbolOpacity: 1,
    } as const;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 26 } },
      columns: 2,
      concat: kinds.map(({ kind, per, incidence: causes }) => {
        const end = max(causes.flatMap(({ points }) => points.map(({ exposure }) => exposure)));
        const values = causes.flatMap(({ cause, points }) =>
          stepsFrom(points, 0, end).map((step) => ({ ...step, cause })),
        );
        const highest = max(values.map(({ high }) => high));
        const x = {
          field: 'x',
          type: 'quantitative' as const,
          title: capital(countedIn(per)),
          scale: { domain: [0, end], nice: false },
          axis: { grid: false, tickCount: 6 },
        };
        const y = {
          type: 'quantitative' as const,
          title: null,
          scale: { domain: [0, Math.min(1, highest * 1.05)], nice: false },
          axis: { format: '.0%', tickCount: 5 },
        };
        return {
          title: kind,
          ...panelSize(kinds),
          data: { values },
          layer: [
            {
              mark: { type: 'area' as const, interpolate: 'step-after' as const, opacity: 0.16 },
              encoding: {
                x,
                y: { ...y, field: 'low' },
                y2: { field: 'high' },
                color: { field: 'cause', type: 'nominal' as const, scale: color, legend },
              },
            },
            {
              mark: { type: 'line' as const, interpolate: 'step-after' as const, strokeWidth: 2 },
              encoding: {
                x,
                y: { ...y, field: 'y' },
                color: { field: 'cause', type: 'nominal' as const, scale: color, legend },
                strokeDash: { field: 'cause', type: 'nominal' as const, scale: dash, legend },
              },
            },
          ],
        };
      }),
    };
  },
  table: (summary) => ({
    columns: [
      { label: 'Kind' },
      { label: 'Cause' },
      { label: 'Use', numeric: true },
      { label: 'Share ended', numeric: true },
      { label: 'Interval', numeric: true },
    ],
    rows: kindsOf(summary).flatMap(({ kind, incidence: causes }) =>
      causes.flatMap(({ cause, points }) =>
        evenly(points, 12).map(({ exposure, value, low, high }) => [
          kind,
          cause,
          String(exposure),
          share(value),
          low === null || high === null ? '' : `${share(low)} to ${share(high)}`,
        ]),
      ),
    ),
  }),
};
