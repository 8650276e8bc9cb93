import {
  calendarScale,
  estimateLine,
  fixed,
  numberText,
  type Scale,
  SHARE,
  unitName,
  workScale,
} from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import type { MeasureSummary, StrategySummary, Summary } from '../../analysis/results.js';
import { NEUTRALS } from '../palette.js';
import { shortened } from '../text.js';
import { type Chart, NARROW, strategyLabels, strategyLooks } from './chart.js';
import { dayOf, foldedTime, weekdayOf } from './folded.js';
import type { NumberAxis } from './axes.js';
import { curve, label, type Mark, rule, type Spanned } from './marks.js';
import { picture } from './picture.js';

const HEIGHT = 320;
/** Where it is drawn narrow, beside the verdict or on a phone. */
const LOW = 150;
/** The axis ends above 1, where the granted time is named. */
const TOP = 1.1;
const TICKS = [0, 0.2, 0.4, 0.6, 0.8, 1].map((at) => ({ at, label: numberText(at, SHARE) }));

/** What is told of strategies about their end. */
type Finishing = Pick<Summary, 'strategies' | 'allocation' | 'calendar' | 'confidence'>;

/** Seconds up to which the curves are drawn: a little past the last step, session and end of the granted time. */
function horizon(summary: Finishing): number {
  const ends = summary.strategies.flatMap((strategy) => strategy.finishing.map((point) => point.time));
  const means = summary.strategies.map((strategy) => strategy.measures.totalTime.value);
  return 1.04 * Math.max(...(ends.length === 0 ? means : ends), summary.allocation?.end ?? 0, 1);
}

function steps(summary: Finishing, divisor: number): Spanned[] {
  const labels = strategyLabels(summary);
  const end = summary.calendar.sessions.length > 0 ? Infinity : horizon(summary);
  return summary.strategies.flatMap((strategy, place) => {
    const points = strategy.finishing;
    const last = points.at(-1) ?? { value: 0, low: 0, high: 0 };
    return [{ time: 0, value: 0, low: 0, high: 0 }, ...points, { ...last, time: end }].map((point) => ({
      look: labels[place],
      x: foldedTime(summary.calendar, point.time) / divisor,
      value: point.value,
      low: point.low,
      high: point.high,
    }));
  });
}

/** Where the axis ends: with the last session, or with the horizon where all time is booked. */
function endOf(summary: Finishing): number {
  return foldedTime(summary.calendar, summary.calendar.sessions.length > 0 ? Infinity : horizon(summary));
}

/** Pixels that the name of a session needs. */
const SESSION_NAME = 66;

/** Sessions within the picture, each named by its day and number in its middle; as many names as have room. */
function sessionAxis({ calendar }: Finishing, end: number, scale: Scale, width: number): NumberAxis {
  const folded = (time: number) => foldedTime(calendar, time) / scale.divisor;
  const shown = calendar.sessions.filter(({ start }) => folded(start) < end);
  const pixels = (width - 80) / shown.length;
  const every = Math.ceil(SESSION_NAME / pixels);
  // The last name would reach beyond the axis where its session is narrow.
  const named = shown.length - (every > 1 ? Math.ceil(SESSION_NAME / 2 / pixels) : 0);
  return {
    title: 'Booked sessions',
    domain: [0, end],
    hasTicks: false,
    ticks: shown
      .map(({ start, end: stop }, place) => ({
        at: (folded(start) + folded(stop)) / 2,
        label: [weekdayOf(dayOf(calendar, start)), `session ${String(place + 1)}`],
      }))
      .filter((_, place) => (place + 1) % every === 0 && place < named),
  };
}

/** Seconds at which nine campaigns in ten have their last review, where that comes after the end of the work. */
function lastReview({ measures }: StrategySummary): readonly number[] {
  const p90 = ({ quantiles }: MeasureSummary) => quantiles.filter(({ probability }) => probability === 0.9);
  const [[reviewed], [ended]] = [p90(measures.confirmedAt), p90(measures.totalTime)];
  return reviewed.value > ended.value ? [reviewed.value] : [];
}

/** The end of the granted time as a line, with what was granted. */
function grantedMarks(
  { allocation: granted, calendar }: Finishing,
  end: number,
  scale: Scale,
  width: number,
): readonly Mark[] {
  if (granted === null) return [];
  const x = foldedTime(calendar, granted.end) / scale.divisor;
  return [
    rule([{ x }], { tone: NEUTRALS.ink, dash: [4, 3], width: 1.2 }),
    label(
      [{ x, text: `${width === NARROW ? '' : 'granted: '}${shortened(granted.text, 40)}` }],
      { baseline: 'top', dx: x > end / 2 ? -5 : 5, dy: 2, align: x > end / 2 ? 'right' : 'left', hasGround: true },
      { y: 0 },
    ),
  ];
}

/** The probability of completion by time since something, such as `since the start`. */
export function finishChart<Result extends Finishing>(since: string): Chart<Result> {
  return {
    id: 'finish',
    title: 'When will it be finished?',
    caption: (summary) => {
      const percent = fixed(100 * summary.confidence.level, 0);
      const parts = [
        `Chance that the experiment is finished, by time ${since}; bands are ${percent} % intervals, point by point. Overrun, and late reviews that flag nothing, do not hold it up.`,
      ];
      if (summary.calendar.sessions.length > 0) parts.push('Thin lines part the booked sessions.');
      if (summary.allocation !== null) parts.push('The dashed vertical line is the end of the granted time.');
      return parts.join(' ');
    },
    alt: (summary) =>
      `Rising steps, one line a strategy. ${listed(
        summary.strategies.map((strategy) =>
          strategy.withinAllocation === null
            ? `${strategy.name} is ever finished with a chance of ${numberText(strategy.finishes.value, SHARE)}`
            : `${strategy.name} is finished within the granted time with a chance of ${numberText(strategy.withinAllocation.value, SHARE)}`,
        ),
      )}.`,
    drawing: (summary) => {
      const { calendar } = summary;
      const hasSessions = calendar.sessions.length > 0;
      const scale = hasSessions ? workScale(horizon(summary)) : calendarScale(horizon(summary));
      const end = endOf(summary) / scale.divisor;
      const ends = calendar.sessions.map((session) => foldedTime(calendar, session.end) / scale.divisor);
      return (width) =>
        picture({
          looks: strategyLooks(summary),
          legend: { symbol: 'stroke' },
          panels: [
            {
              height: width === NARROW ? LOW : HEIGHT,
              x: hasSessions
                ? sessionAxis(summary, end, scale, width)
                : { title: `Time ${since} (${unitName(scale)})`, domain: [0, end], time: scale },
              y: { title: 'Probability of completion', domain: [0, TOP], ticks: TICKS },
              marks: [
                rule(
                  ends.filter((x) => x < end).map((x) => ({ x })),
                  { tone: NEUTRALS.line },
                ),
                ...curve(steps(summary, scale.divisor), { isStepped: true }),
                ...grantedMarks(summary, end, scale, width),
              ],
            },
          ],
        })(width);
    },
    table: (summary) => {
      const scale = calendarScale(horizon(summary));
      return {
        columns: [
          { label: 'Strategy' },
          { label: 'By' },
          { label: `Time (${scale.unit})`, numeric: true },
          { label: 'Probability of completion', numeric: true },
        ],
        rows: summary.strategies.flatMap((strategy) => [
          ...(strategy.finishedBySession.length > 0
            ? strategy.finishedBySession.map((point) => [
                strategy.name,
                `end of session ${String(point.session)}`,
                numberText(point.time / scale.divisor),
                estimateLine(point, SHARE),
              ])
            : thinned(strategy.finishing, 12).map((point) => [
                strategy.name,
                'this time',
                numberText(point.time / scale.divisor),
                estimateLine(point, SHARE),
              ])),
          [strategy.name, 'ever', '', estimateLine(strategy.finishes, SHARE)],
          ...lastReview(strategy).map((time) => [
            strategy.name,
            'last late review done (P90)',
            numberText(time / scale.divisor),
            '',
          ]),
        ]),
      };
    },
  };
}

export const finish: Chart = finishChart('since the start');

/** At most `most` items, evenly chosen, the last one always among them. */
function thinned<T>(items: readonly T[], most: number): readonly T[] {
  const every = Math.ceil(items.length / most);
  return items.filter((_, place) => (items.length - 1 - place) % Math.max(1, every) === 0);
}
