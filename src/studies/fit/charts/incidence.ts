import { max } from 'simple-statistics';
import { CAUSE_NAMES, declaredOf } from '../../../probe/causes.js';
import type { Cause } from '../../../scenario/schema/scenario.js';
import type { FitSummary, KindFit } from '../results.js';
import { share } from '../report-words.js';
import { evenly, exposureTitle, panelHeight, stepsFrom } from './panels.js';
import { PERCENT } from '../../../report/charts/axes.js';
import { type Chart, looksOf } from '../../../report/charts/chart.js';
import { curve } from '../../../report/charts/marks.js';
import { picture } from '../../../report/charts/picture.js';

const MOST_KINDS = 8;

function kindsOf({ kinds }: FitSummary): readonly KindFit[] {
  return kinds.filter(({ incidence }) => incidence.some(({ points }) => points.length > 0)).slice(0, MOST_KINDS);
}

/** The same look for a cause in every panel; those of places behind the distributions'. */
const CAUSE_LOOKS = looksOf(CAUSE_NAMES.map(nameOf), 3);

function nameOf(cause: Cause): string {
  return declaredOf(cause).title;
}

function lastShare(points: KindFit['incidence'][number]['points']): number {
  return points.at(-1)?.value ?? 0;
}

export const incidence: Chart<FitSummary> = {
  id: 'incidence',
  title: 'Cumulative incidence by cause',
  caption: () =>
    'Share of tips that each cause has ended by then, all causes at work together (Aalen and Johansen), with 95 % bands; each event where it was noticed. Unlike one minus the survival in the next picture, these shares add up: together with the tips that are still sound they make the whole.',
  alt: (summary) =>
    `A panel for each kind; ${kindsOf(summary)
      .map(
        ({ kind, incidence: causes }) =>
          `${kind}: ${causes.map(({ cause, points }) => `${nameOf(cause)} ends ${share(lastShare(points))}`).join(', ')}`,
      )
      .join('; ')}.`,
  drawing: (summary) => {
    const kinds = kindsOf(summary);
    if (kinds.length === 0) return null;
    const present = kinds.flatMap(({ incidence: causes }) => causes.map(({ cause }) => nameOf(cause)));
    return picture({
      looks: CAUSE_LOOKS.filter(({ name }) => present.includes(name)),
      legend: { symbol: 'stroke', orient: 'bottom' },
      columns: 2,
      panels: kinds.map(({ kind, per, incidence: causes }) => {
        const end = max(causes.flatMap(({ points }) => points.map(({ exposure }) => exposure)));
        const steps = causes.flatMap(({ cause, points }) =>
          stepsFrom(points, 0, end).map((step) => ({ ...step, look: nameOf(cause) })),
        );
        const highest = Math.min(1, max(steps.map(({ high }) => high)) * 1.05);
        return {
          title: kind,
          height: panelHeight(kinds),
          x: { title: exposureTitle({ per }), domain: [0, end] },
          y: { title: null, domain: [0, highest], format: PERCENT },
          marks: curve(steps, { isStepped: true, width: 2 }),
        };
      }),
    });
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
          nameOf(cause),
          String(exposure),
          share(value),
          low === null || high === null ? '' : `${share(low)} to ${share(high)}`,
        ]),
      ),
    ),
  }),
};
