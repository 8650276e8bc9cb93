import type { StrategySummary, Summary } from '../../../analysis/results.js';
import { calendarOfCampaigns, MOST_DAYS } from '../../../report/charts/calendar.js';
import { type Chart, strategyLabels } from '../../../report/charts/chart.js';
import { dayOf, hourOn, weekdayOf } from '../../../report/charts/folded.js';
import { numberText, SHARE } from '../../../wording/numbers.js';
import { listed } from '../../../wording/phrases.js';

const MARKED = [0.5, 0.9];

/** When so large a share of all campaigns is complete, in seconds since the start; null where it never is. */
function completeAt({ finishing }: StrategySummary, share: number): number | null {
  return finishing.find(({ value }) => value >= share)?.time ?? null;
}

/** `Tue 14:20`, with the week from the second one on. */
function moment({ calendar }: Summary, time: number): string {
  const day = dayOf(calendar, time);
  const minutes = Math.round(60 * hourOn(calendar, day, time));
  const two = (value: number) => String(value).padStart(2, '0');
  const week = day < 7 ? '' : `, week ${String(Math.floor(day / 7) + 1)}`;
  return `${weekdayOf(day)} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)}${week}`;
}

/** The bookings with one campaign of each strategy in them. */
export const calendar: Chart = {
  id: 'calendar',
  title: 'Calendar',
  caption: (summary) => {
    const [shown] = summary.shown;
    const bookings = summary.calendar.sessions.length > 0 ? 'Booked time is shaded. ' : '';
    return `${bookings}In it, replication ${String(shown.replication)}, ${shown.label}. Lines mark when 50 % and 90 % of all campaigns are complete. The first ${String(MOST_DAYS)} days are drawn at most.`;
  },
  alt: (summary) =>
    `Days across and hours down, with what the instrument does. ${listed(
      summary.strategies.map(
        (strategy) => `${strategy.name}: ${listed(MARKED.map((share) => marked(summary, strategy, share)))}`,
      ),
    )}.`,
  drawing: (summary) => {
    const [shown] = summary.shown;
    if (summary.shown.length === 0) return null;
    const labels = strategyLabels(summary);
    return calendarOfCampaigns({
      calendar: summary.calendar,
      panels: summary.strategies.flatMap((strategy, place) => {
        const timeline = shown.timelines.find((each) => each.strategy === strategy.name);
        if (timeline === undefined) return [];
        const moments = MARKED.flatMap((share) => {
          const time = completeAt(strategy, share);
          return time === null ? [] : [{ time, text: numberText(share, SHARE) }];
        });
        return [{ title: labels[place], timeline, moments }];
      }),
    });
  },
  table: (summary) => ({
    columns: [{ label: 'Strategy' }, ...MARKED.map((share) => ({ label: `${numberText(share, SHARE)} complete by` }))],
    rows: summary.strategies.map((strategy) => [
      strategy.name,
      ...MARKED.map((share) => {
        const time = completeAt(strategy, share);
        return time === null ? 'never' : moment(summary, time);
      }),
    ]),
  }),
};

function marked(summary: Summary, strategy: StrategySummary, share: number): string {
  const time = completeAt(strategy, share);
  const part = numberText(share, SHARE);
  return time === null ? `fewer than ${part} are ever complete` : `${part} complete by ${moment(summary, time)}`;
}
