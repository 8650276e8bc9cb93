import type { Timeline } from '../../analysis/results.js';
import { ACTIVITY_TONES, NEUTRALS, TIP_STATE_TONES } from '../palette.js';
import type { Drawing } from './chart.js';
import { driftLine } from './drift-line.js';
import { box, rule, withLooks } from './marks.js';
import { picture, plotWidth } from './picture.js';
import { rowsOf } from './rows.js';
import type { Block } from './strips.js';
import { drawnTimelines } from './timeline-rows.js';

/** Height of a row, and its parts from its top: the activities, the tip below them, and the drift rate below that. */
interface Layout {
  readonly height: number;
  readonly upper: Part;
  readonly lower: Part;
  readonly drift: Part;
}
/** From where to where, of the height of a row. */
type Part = readonly [top: number, bottom: number];
const STILL: Layout = { height: 54, upper: [0.14, 0.64], lower: [0.7, 0.86], drift: [1, 1] };
const DRIFTING: Layout = { height: 90, upper: [0.08, 0.38], lower: [0.42, 0.52], drift: [0.58, 0.92] };
/** Room for the rates at the right of a row. */
const RATE_ROOM = 52;

/** One row for each strategy and instrument: what its time went to, and the state of its tip in a strip below. */
export function timeline(timelines: readonly Timeline[]): Drawing | null {
  const drawn = drawnTimelines(timelines);
  if (drawn === null) return null;
  const { rows, activities, states, rates, end, scale, title } = drawn;
  const layout = rates === null ? STILL : DRIFTING;
  return (width) => {
    const placed = rowsOf(
      rows.map(({ name }) => name),
      layout.height,
      width,
    );
    const strip = <T>(blocks: readonly Block<T>[], row: number, [top, bottom]: Part, look: (what: T) => string) =>
      blocks.map(({ start, end: stop, what, from, to }) => ({
        x: start,
        x2: stop,
        y: placed.at(row, bottom - from * (bottom - top)),
        y2: placed.at(row, bottom - to * (bottom - top)),
        look: look(what),
      }));
    const cuts = rows.flatMap((row, place) =>
      row.cuts.map((x) => ({ x, y: placed.at(place, 0.02), y2: placed.at(place, 0.11) })),
    );
    const tips = rows.flatMap((row, place) => strip(row.tips, place, layout.lower, ({ state }) => state));
    const [upper, lower] = [
      activities.map((name) => ({ name, tone: ACTIVITY_TONES[name] })),
      states.map((name) => ({ name, tone: TIP_STATE_TONES[name] })),
    ];
    const legend = { symbol: 'square', orient: 'bottom' } as const;
    const [top, bottom] = layout.drift;
    return picture({
      looks: upper,
      legend,
      hasOwnColours: true,
      panels: [
        {
          across: plotWidth(width, placed.room) - (rates === null ? 0 : RATE_ROOM),
          height: placed.height,
          x: { title, domain: [0, end], time: scale },
          y: placed.y,
          marks: [
            box(rows.flatMap((row, place) => strip(row.activities, place, layout.upper, (activity) => activity))),
            withLooks(
              lower,
              { ...legend, title: 'tip, below:' },
              box(tips, { edge: NEUTRALS.paper, edgeWidth: tips.length > 400 ? 0 : 0.7 }),
            ),
            ...(rates === null
              ? []
              : driftLine(
                  rows.map(({ drift }) => drift),
                  rates,
                  end,
                  (row, part) => placed.at(row, top + part * (bottom - top)),
                )),
            rule(cuts),
            placed.names,
          ],
        },
      ],
    })(width);
  };
}
