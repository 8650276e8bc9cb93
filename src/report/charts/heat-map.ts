import { NEUTRALS } from '../palette.js';
import type { NumberAxis, PlaceAxis } from './axes.js';
import type { Drawing, Look } from './chart.js';
import { box, type Datum, dots, label, outline } from './marks.js';
import { picture } from './picture.js';

/** Where a cell stands. */
interface Place {
  readonly x: number | string;
  readonly y: string;
}

/** A cell by the name of its class; x2 where it spans a stretch of numbers. */
export interface Cell extends Place {
  readonly x2?: number;
  readonly look: string;
  /** A sign in it. */
  readonly text?: string;
  readonly isOutlined?: boolean;
}

export interface HeatPanel {
  readonly title?: string;
  readonly x: NumberAxis | PlaceAxis;
  readonly y: PlaceAxis;
  readonly cells: readonly Cell[];
  /** Cells that are picked out by a ring. */
  readonly rings?: readonly Place[];
}

export interface HeatMap {
  readonly panels: readonly HeatPanel[];
  /** Classes in their order. */
  readonly looks: readonly Look[];
  /** Title of the legend. */
  readonly title?: string;
  readonly columns?: number;
  /** Pixels of a row. */
  readonly step: number;
}

/** Cells in the colour of their class. */
export function heatMap({ panels, looks, title, columns = 1, step }: HeatMap): Drawing {
  return picture({
    looks,
    legend: { symbol: 'square', orient: 'bottom', ...(title === undefined ? {} : { title }) },
    columns,
    panels: panels.map(({ cells, rings = [], ...panel }) => {
      const place = ({ x, x2, y }: Cell): Datum => (x2 === undefined ? { x, y } : { x, x2, y });
      const signs = cells.flatMap(({ text = '', x, y }) => (text === '' ? [] : [{ x, y, text }]));
      return {
        ...panel,
        height: step * panel.y.places.length,
        marks: [
          box(
            cells.map((cell) => ({ ...place(cell), look: cell.look })),
            cells.some(({ x2 }) => x2 !== undefined) ? {} : { edge: NEUTRALS.paper },
          ),
          outline(cells.filter(({ isOutlined }) => isOutlined === true).map(place), NEUTRALS.ink),
          label(signs, { size: Math.max(7, Math.min(16, step / 1.6)), isBold: true, hasGround: true }),
          dots(rings, { tone: NEUTRALS.paper, edge: NEUTRALS.ink, size: 130, width: 2 }),
        ],
      };
    }),
  });
}
