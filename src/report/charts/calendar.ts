import type { Calendar } from '../../analysis/results.js';
import type { Timeline } from '../../analysis/results.js';
import { ACTIVITIES, type Activity } from '../../campaign/activities.js';
import { ACTIVITY_TONES, NEUTRALS } from '../palette.js';
import type { NumberAxis } from './axes.js';
import type { Drawing } from './chart.js';
import { dayOf, hourOn, weekdayOf } from './folded.js';
import { box, label, rule } from './marks.js';
import { picture } from './picture.js';
import { type Block, blocks } from './strips.js';
import { timelineEnd } from './timeline-rows.js';

export interface CalendarPanel {
  readonly title: string;
  /** The campaign that is drawn into the bookings. */
  readonly timeline: Timeline;
  /** Moments that are marked, in seconds since the start. */
  readonly moments: readonly { readonly time: number; readonly text: string }[];
}

export interface CalendarData {
  readonly calendar: Calendar;
  readonly panels: readonly CalendarPanel[];
}

const CLOSED: Activity = 'waiting for a booking';
/** Days in a picture, and marks of activities in it, at most. */
export const MOST_DAYS = 21;
const MOST_MARKS = 1500;
const HEIGHT = 260;

/** Within a day, a stretch of time: hours on that day. */
interface Piece {
  readonly day: number;
  readonly from: number;
  readonly to: number;
}

/** A stretch of time in pieces that each lie on one day; one that runs into the night stays on the day on which it began. */
function piecesOf(calendar: Calendar, start: number, end: number): readonly Piece[] {
  const isAlways = calendar.sessions.length === 0;
  const first = dayOf(calendar, start);
  const last = isAlways ? dayOf(calendar, Math.max(start, end - 1e-6)) : first;
  return Array.from({ length: last - first + 1 }, (_, place) => {
    const day = first + place;
    return {
      day,
      from: Math.max(hourOn(calendar, day, start), isAlways ? 0 : -Infinity),
      to: Math.min(hourOn(calendar, day, end), isAlways ? 24 : Infinity),
    };
  });
}

/** Days on which something can happen, in order, as many as are drawn. */
function daysOf({ calendar, panels }: CalendarData): readonly number[] {
  const last = greatest(
    panels.flatMap(({ timeline, moments }) => [timelineEnd([timeline]), ...moments.map(({ time }) => time)]),
  );
  const open = calendar.sessions.filter(({ start }) => start < last);
  const all = open.length === 0 ? [{ start: 0, end: last }] : open;
  const days = all.flatMap(({ start, end }) => piecesOf(calendar, start, end).map(({ day }) => day));
  return [...new Set(days)].slice(0, MOST_DAYS);
}

/** One by one, as a call takes no more arguments than its stack holds. */
function greatest(numbers: readonly number[]): number {
  return numbers.reduce((most, number) => Math.max(most, number), -Infinity);
}

function least(numbers: readonly number[]): number {
  return numbers.reduce((most, number) => Math.min(most, number), Infinity);
}

/** Days across and hours down: bookings, one campaign in them, and when campaigns are complete. */
export function calendarOfCampaigns(data: CalendarData): Drawing {
  const { calendar, panels } = data;
  const days = daysOf(data);
  const shown = ({ day }: Piece) => days.includes(day);
  const across = ({ day, from, to }: Piece, left: number, right: number) => ({
    ...{ x: days.indexOf(day) + left, x2: days.indexOf(day) + right },
    ...{ y: from, y2: to },
  });
  const open = calendar.sessions.flatMap(({ start, end }) => piecesOf(calendar, start, end)).filter(shown);
  const drawn = panels.map(({ timeline, moments }) => {
    const instruments = [...new Set(timeline.segments.map(({ instrument }) => instrument))].sort((a, b) => a - b);
    const marks = Math.floor(MOST_MARKS / panels.length / instruments.length / days.length);
    const pieces = instruments.flatMap((instrument, lane) => {
      const all = timeline.segments
        .filter(
          (segment) =>
            segment.instrument === instrument &&
            segment.activity !== CLOSED &&
            // A campaign of months has hundreds of thousands of segments behind the last day that is drawn.
            dayOf(calendar, segment.start) <= greatest(days),
        )
        .flatMap(({ start, end, activity }) =>
          piecesOf(calendar, start, end).map((piece) => ({ ...piece, what: activity })),
        );
      const [left, wide] = [0.08 + (0.84 * lane) / instruments.length, (0.84 * 0.98) / instruments.length];
      return days.flatMap((day) =>
        withinDay(
          all.filter((piece) => piece.day === day),
          marks,
        ).map(({ what, from, to, start, end }) => ({
          ...across({ day, from: start, to: end }, left + from * wide, left + to * wide),
          look: what,
        })),
      );
    });
    const marked = moments.flatMap(({ time, text }) => {
      const [piece] = piecesOf(calendar, time, time);
      return shown(piece) ? [{ ...across(piece, 0, 1), text }] : [];
    });
    return { pieces, marked };
  });
  const hours = [...open, ...drawn.flatMap(({ pieces }) => pieces.map(({ y, y2 }) => ({ from: y, to: y2 })))];
  const top = Math.floor(least(hours.map(({ from }) => from)) + 1e-9);
  const bottom = Math.ceil(greatest(hours.map(({ to }) => to)) - 1e-9);
  const used = ACTIVITIES.filter((activity) =>
    drawn.some(({ pieces }) => pieces.some(({ look }) => look === activity)),
  );
  return (width) =>
    picture({
      looks: used.map((name) => ({ name, tone: ACTIVITY_TONES[name] })),
      legend: { symbol: 'square', orient: 'bottom' },
      columns: days.length > 7 ? 1 : 3,
      panels: panels.map(({ title }, place) => ({
        title,
        height: HEIGHT,
        x: dayAxis(days, width),
        y: {
          title: null,
          domain: [bottom, top],
          ticks: hourTicks(top, bottom),
        },
        marks: [
          box(open.map((piece) => across(piece, 0.02, 0.98))),
          box(drawn[place].pieces),
          rule(
            drawn[place].marked.map(({ x, x2, y }) => ({ x, x2, y })),
            { tone: NEUTRALS.ink, width: 2.2 },
          ),
          label(
            drawn[place].marked.map(({ x, x2, y, text }) => ({ x: (x + x2) / 2, y, text })),
            { dy: -8, size: 11, isBold: true, hasGround: true },
          ),
        ],
      })),
    })(width);
}

/** What one day holds, in shares of its columns where that is too much to draw one by one. */
function withinDay(
  pieces: readonly (Piece & { readonly what: Activity })[],
  marks: number,
): readonly Block<Activity>[] {
  const first = least(pieces.map(({ from }) => from));
  const last = greatest(pieces.map(({ to }) => to));
  const order = (a: Activity, b: Activity) => ACTIVITIES.indexOf(a) - ACTIVITIES.indexOf(b);
  const stretches = pieces.map(({ from, to, what }) => ({ start: from - first, end: to - first, what }));
  return blocks(stretches, last - first, marks, (a, b) => a === b, order).map((block) => ({
    ...block,
    start: block.start + first,
    end: block.end + first,
  }));
}

function dayAxis(days: readonly number[], width: number): NumberAxis {
  const every = Math.max(1, Math.ceil((days.length * 34) / Math.min(width, 860)));
  const weeks = greatest(days) >= 7;
  const name = (day: number) =>
    weeks && day % 7 === 0 ? [weekdayOf(day), `week ${String(day / 7 + 1)}`] : [weekdayOf(day)];
  return {
    title: null,
    domain: [0, days.length],
    hasTicks: false,
    ticks: days.flatMap((day, place) => (place % every === 0 ? [{ at: place + 0.5, label: name(day) }] : [])),
  };
}

function hourTicks(top: number, bottom: number) {
  const step = [1, 2, 3, 4, 6].find((each) => (bottom - top) / each <= 8) ?? 12;
  return Array.from({ length: Math.floor((bottom - top) / step) + 1 }, (_, place) => {
    const at = top + place * step;
    return { at, label: `${String(at % 24).padStart(2, '0')}:00` };
  });
}
