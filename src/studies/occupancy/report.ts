import { bars } from '../../report/charts/bars.js';
import { type Chart, strategyLabels } from '../../report/charts/chart.js';
import { csv } from '../../report/csv.js';
import { planFacts } from '../../report/page.js';
import { ACTIVITY_TONES } from '../../report/palette.js';
import { answerReport } from '../../report/report.js';
import { htmlTable, type Table } from '../../report/table.js';
import { html, plainText } from '../../report/text.js';
import { estimateLine, halfWidthLine, numberText, SHARE, workScale } from '../../wording/numbers.js';
import { counted, listed } from '../../wording/phrases.js';
import type { Occupancy, OccupiedStrategy, Session, Use } from './results.js';

/** Sessions beside each other in the terminal. */
const MOST_SHOWN = 4;

export const occupancyReport = answerReport<Occupancy>({
  files: { 'occupancy.csv': occupancyCsv },
  charts: ({ strategies }) => (strategies.every(({ sessions }) => sessions.length === 0) ? [] : [sessionsChart]),
  shown: (result) => {
    const { replications, level, strategies, scenario } = result;
    const run = counted(replications, 'replication');
    return {
      kicker: 'What the booked hours go to, session by session',
      facts: planFacts(scenario, null),
      answer: result.answer,
      warnings: result.warnings,
      run,
      terminal: {
        run: `${run}, mean shares of the booked hours with ${numberText(level, SHARE)} intervals`,
        tables: () => [
          { title: 'Session 1', table: firstTable(result) },
          ...strategies.map((strategy) => ({
            title: strategy.name + more(strategy),
            table: usesTable(strategy.sessions.slice(0, MOST_SHOWN), halfWidthLine),
          })),
        ],
      },
      below: strategies.map(({ name, sessions }, place) => section(name, usesTable(sessions, estimateLine), place)),
      intro:
        'Each replication plays the whole plan, scan by scan. Every step and every wait is laid over the booked hours; what runs past the end of a booking is left out, and what is booked but not needed counts as such. Shares of a session are means over all replications, those that need it no longer among them.',
      method: [
        [
          'Replications',
          `${numberText(replications)} of every strategy, with common random numbers; ${result.stopping}`,
        ],
        ['Intervals', `${numberText(level, SHARE)}, two-sided, each by itself; chances by Clopper and Pearson`],
        [
          'Sessions',
          `Unbroken stretches of booked hours, the one of the start first; without bookings every 24 hours. ${scenario.instruments > 1 ? 'The hours of all instruments together.' : 'A session that has begun before the start counts from the start on.'}`,
        ],
      ],
      rest: 'All numbers are in `summary.json` and `occupancy.csv`',
    };
  },
});

function more({ sessions }: OccupiedStrategy): string {
  const rest = sessions.length - MOST_SHOWN;
  return rest > 0 ? ` (${counted(rest, 'more session')} in the report)` : '';
}

/** A row a use, a column a strategy: the first session alone. */
function firstTable({ strategies }: Occupancy): Table {
  const sessions = strategies.map(({ sessions: [first] }) => first);
  return {
    columns: [{ label: 'use' }, ...strategies.map(({ name }) => ({ label: name, numeric: true }))],
    rows: usesIn(sessions).map((use) => [use, ...sessions.map((session) => useCell(session, use, halfWidthLine))]),
  };
}

function useCell({ uses }: Session, use: Use, text: typeof estimateLine): string {
  const found = uses.find((each) => each.use === use);
  return found === undefined ? '–' : text(found, SHARE);
}

/** A row a use, a column a session. */
function usesTable(sessions: readonly Session[], text: typeof estimateLine): Table {
  return {
    columns: [{ label: 'use' }, ...sessions.map(({ session }) => ({ label: `session ${session}`, numeric: true }))],
    rows: [
      ...usesIn(sessions).map((use) => [use, ...sessions.map((session) => useCell(session, use, text))]),
      ['until', ...sessions.map(({ until }) => until)],
      ['still under way in', ...sessions.map(({ needed }) => estimateLine(needed, SHARE))],
      ['booked', ...sessions.map(({ booked }) => numberText(booked, workScale(booked)))],
    ],
  };
}

/** Uses that any of the sessions has, in their order. */
function usesIn(sessions: readonly Session[]): readonly Use[] {
  const order: readonly string[] = [...Object.keys(ACTIVITY_TONES), 'no longer needed'];
  const found = new Set(sessions.flatMap(({ uses }) => uses.map(({ use }) => use)));
  return [...found].sort((a, b) => order.indexOf(a) - order.indexOf(b));
}

function section(name: string, table: Table, place: number): string {
  return `<section aria-labelledby="uses-${String(place)}">
<h2 id="uses-${String(place)}">${html(name)}</h2>
${htmlTable(table, 'Mean shares of the booked hours of each session')}
</section>`;
}

const sessionsChart: Chart<Occupancy> = {
  id: 'sessions',
  title: 'What do the booked hours go to?',
  caption: ({ scenario }) =>
    `Mean shares of the booked hours of each session${scenario.instruments > 1 ? ', all instruments together' : ''}. Campaigns that are over by then are among them, with their hours no longer needed, which are left blank.`,
  alt: ({ strategies }) =>
    `Stacked bars, one a session, for each strategy. ${listed(
      strategies.flatMap(({ name, sessions: [first] }) => {
        const kept = first.uses.find(({ use }) => use === 'scanning kept');
        return kept === undefined ? [] : [`${name} scans for keeps in ${numberText(kept.value, SHARE)} of session 1`];
      }),
    )}.`,
  drawing: (result) => {
    const { strategies } = result;
    const labels = strategyLabels(result);
    return bars({
      looks: usesIn(strategies.flatMap(({ sessions }) => sessions)).flatMap((name) =>
        name === 'no longer needed' ? [] : [{ name, tone: ACTIVITY_TONES[name] }],
      ),
      x: { title: 'Mean share of the booked hours (%)' },
      step: 30,
      panels: strategies.map(({ sessions }, place) => ({
        title: labels[place],
        rows: sessions.map(({ session, uses }) => ({
          name: `session ${session}`,
          parts: uses.flatMap(({ use, value }) =>
            use === 'no longer needed' ? [] : [{ look: use, size: value / SHARE.divisor }],
          ),
        })),
      })),
    });
  },
  table: ({ strategies }) => ({
    columns: [
      { label: 'Strategy' },
      { label: 'Session', numeric: true },
      { label: 'Use' },
      { label: 'Share', numeric: true },
    ],
    rows: strategies.flatMap(({ name, sessions }) =>
      sessions.flatMap(({ session, uses }) =>
        uses.map((each) => [name, String(session), each.use, estimateLine(each, SHARE)]),
      ),
    ),
  }),
};

/** `occupancy.csv`: a row for each use of each session of each strategy. */
function occupancyCsv({ strategies }: Occupancy): string {
  return csv([
    [
      'strategy',
      'session',
      'until',
      'ends at (s)',
      'booked (s)',
      'still under way (share)',
      'use',
      'share',
      'low',
      'high',
    ],
    ...strategies.flatMap(({ name, sessions }) =>
      sessions.flatMap(({ session, until, time, booked, needed, uses }) =>
        uses.map(({ use, value, low, high }) => [
          ...[plainText(name), session, until, time, booked, needed.value],
          ...[use, value, low, high],
        ]),
      ),
    ),
  ]);
}
