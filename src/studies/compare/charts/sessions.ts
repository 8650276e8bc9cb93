import type { StrategySummary, Summary } from '../../../analysis/results.js';
import { estimateLine, numberText, SHARE } from '../../../wording/numbers.js';
import { counted, listed } from '../../../wording/phrases.js';
import { PERCENT } from '../../../report/charts/axes.js';
import { type Chart, strategyLooks } from '../../../report/charts/chart.js';
import { curves } from '../../../report/charts/curves.js';
import type { Estimate } from '../../../statistics/estimate.js';

/** Sessions that the slowest strategy needs. */
function mostSessions({ strategies }: Summary): number {
  return Math.max(...strategies.map(({ finishedBySession }) => finishedBySession.length));
}

/** The probability of completion with so many sessions; beyond those that any campaign needs it stays as it is. */
function within({ finishedBySession, finishes }: StrategySummary, sessions: number): Estimate {
  return finishedBySession.at(sessions - 1) ?? finishes;
}

function counts(summary: Summary): readonly number[] {
  return Array.from({ length: mostSessions(summary) }, (_, place) => place + 1);
}

/** What one session more or less does to the probability of completion. */
export const sessions: Chart = {
  id: 'sessions',
  title: 'How many sessions to ask for?',
  caption: ({ confidence }) =>
    `Probability of completion within so many booked sessions; bands are ${numberText(confidence.level, SHARE)} intervals, each by itself.`,
  alt: (summary) =>
    `One rising line a strategy over the number of sessions. ${listed(
      summary.strategies.map((strategy) => {
        const enough = counts(summary).find((count) => within(strategy, count).value >= 0.9);
        return enough === undefined
          ? `${strategy.name} never comes to 90 %`
          : `${strategy.name} comes to 90 % with ${counted(enough, 'session')}`;
      }),
    )}.`,
  drawing: (summary) => {
    const most = mostSessions(summary);
    if (most < 2) return null;
    const looks = strategyLooks(summary);
    return curves({
      looks,
      height: 200,
      x: { title: 'Sessions asked for', domain: [1, most], isWhole: true },
      panels: [
        {
          y: { title: 'Probability of completion', domain: [0, 1], format: PERCENT },
          points: summary.strategies.flatMap((strategy, place) =>
            counts(summary).map((count) => ({ look: looks[place].name, x: count, ...within(strategy, count) })),
          ),
        },
      ],
    });
  },
  table: (summary) => ({
    columns: [
      { label: 'Sessions', numeric: true },
      ...summary.strategies.map(({ name }) => ({ label: name, numeric: true })),
    ],
    rows: counts(summary).map((count) => [
      String(count),
      ...summary.strategies.map((strategy) => estimateLine(within(strategy, count), SHARE)),
    ]),
  }),
};
