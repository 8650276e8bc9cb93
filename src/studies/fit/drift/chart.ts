import { timeText, workScale } from '../../../wording/numbers.js';
import { capital, listed } from '../../../wording/phrases.js';
import type { DriftFitSummary, DriftKindFit } from './results.js';
import { NEUTRALS, STRATEGY_TONES } from '../../../report/palette.js';
import { evenly, panelHeight } from '../charts/panels.js';
import { rateText } from './words.js';
import type { Chart } from '../../../report/charts/chart.js';
import { band, dots, joined, line, rule } from '../../../report/charts/marks.js';
import { type Panel, picture } from '../../../report/charts/picture.js';

/** Readings that are drawn of a kind; more would only hide each other. */
const MOST_DRAWN = 1500;

function panel(fit: DriftKindFit, settling: number, height: number): Panel {
  const last = Math.max(...fit.rates.map(({ time }) => time));
  const scale = workScale(last);
  const fitted = fit.curve.map(({ time, ...rates }) => ({ x: time / scale.divisor, ...rates }));
  const read = evenly(fit.rates, MOST_DRAWN).map(({ time, rate, disturbance }) => ({
    at: { x: time / scale.divisor, y: rate },
    disturbance,
  }));
  const highest = Math.max(...fitted.map(({ high }) => high), ...read.map(({ at }) => at.y));
  const disturbances = [...new Set(read.map(({ disturbance }) => disturbance))];
  return {
    title: `After ${fit.kind}`,
    height,
    x: { title: `Since the disturbance ended (${scale.unit})`, domain: [0, last / scale.divisor], time: scale },
    y: { title: 'Drift rate (nm/s)', domain: [0, highest * 1.04] },
    marks: [
      band(fitted, { tone: NEUTRALS.faint, opacity: 1, isClipped: true }),
      rule(settling <= last ? [{ x: settling / scale.divisor }] : [], { dash: [4, 4] }),
      ...disturbances.map((each) =>
        line(
          read.filter(({ disturbance }) => disturbance === each).map(({ at }) => at),
          { tone: NEUTRALS.soft, width: 0.6, opacity: 0.6 },
        ),
      ),
      dots(
        read.map(({ at }) => at),
        { size: 18, tone: NEUTRALS.ink, opacity: 0.8 },
      ),
      joined(fitted, { tone: STRATEGY_TONES[0], width: 2.5, isClipped: true }),
    ],
  };
}

export const driftChart: Chart<DriftFitSummary> = {
  id: 'drift',
  title: 'How does drift settle?',
  caption: ({ form, kinds }) =>
    `${form === 'rate' ? 'A point for each reading' : 'A point for each rate from one displacement to the next, at the middle of the time between'}, those of one disturbance joined; the curve is the fitted rate after a disturbance of the median, the band holds 95 % of disturbances without errors of readings, and the dashed line is the settling time.` +
    (kinds.some(({ rates }) => rates.length > MOST_DRAWN)
      ? ` Of more readings than ${String(MOST_DRAWN)} an even part is drawn.`
      : ''),
  alt: ({ kinds }) =>
    `Drift rate over the time since the disturbance ended: ${listed(
      kinds.map(({ kind, curve }) => {
        const [first, end] = [curve.at(0), curve.at(-1)];
        return first === undefined || end === undefined
          ? `after ${kind} nothing could be fitted`
          : `after ${kind} the fitted rate falls from ${rateText(first.value)} to ${rateText(end.value)} in ${timeText(end.time)}`;
      }),
    )}.`,
  drawing: ({ kinds: all, settling }) => {
    const kinds = all.filter(({ rates }) => rates.length > 0);
    if (kinds.length === 0) return null;
    return picture({ columns: 2, panels: kinds.map((fit) => panel(fit, settling, panelHeight(kinds))) });
  },
  table: ({ kinds }) => ({
    columns: [
      { label: 'Disturbance' },
      { label: 'Since it ended', numeric: true },
      { label: 'Fitted rate', numeric: true },
      { label: '95 % of disturbances', numeric: true },
    ],
    rows: kinds.flatMap(({ kind, curve }) =>
      evenly(curve, 12).map(({ time, value, low, high }) => [
        capital(kind),
        timeText(time),
        rateText(value),
        `${rateText(low)} to ${rateText(high)}`,
      ]),
    ),
  }),
};
