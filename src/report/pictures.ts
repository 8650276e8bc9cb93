import type { TopLevelSpec } from 'vega-lite';
import { type Chart, type Drawing, NARROW, WIDTH } from './charts/chart.js';
import { prettyJson } from './json.js';
import { inPage, renderPicture, type Words } from './render.js';
import { framed, htmlTable } from './table.js';
import { html } from './text.js';

/** The charts of a report: their files by name, and how each stands in its page. */
export interface Pictures {
  readonly files: ReadonlyMap<string, string>;
  /** HTML, in the order of the charts. */
  readonly figures: readonly string[];
}

/** Draws a picture, here or elsewhere, as SVG text. */
export type Draw = (spec: TopLevelSpec, words: Words) => Promise<string>;

const LEFT_OUT =
  '<p>Pictures were left out, since the work was interrupted before they were drawn. Their numbers stand in the files beside this page.</p>';

let last: Promise<unknown> = Promise.resolve();

/** Draws in place, one picture after the other, as the drawing library numbers its definitions for all of them together. */
export const drawHere: Draw = (spec, words) => {
  const next = last.then(() => renderPicture(spec, words));
  last = next.catch(() => undefined);
  return next.then(({ svg }) => svg);
};

/** A picture for a page of the usual width, with its specification, and one for a phone. */
export interface Drawn {
  readonly spec: TopLevelSpec;
  readonly svg: string;
  readonly narrow: string;
}

export async function bothWidths(drawing: Drawing, words: Words, draw: Draw = drawHere): Promise<Drawn> {
  const spec = drawing(WIDTH);
  const [svg, narrow] = await Promise.all([
    draw(spec, words),
    draw(drawing(NARROW), { ...words, prefix: `${words.prefix}-narrow` }),
  ]);
  return { spec, svg, narrow };
}

/** HTML of a picture, of which the style sheet shows the one that fits. */
export function pictureHtml({ svg, narrow }: Drawn, label: string): string {
  const narrower = inPage(narrow).replace('<svg ', '<svg data-narrow ');
  return framed(`${inPage(svg)}${narrower}`, label);
}

/**
 * Draws every chart of a study's results: specification, picture, and figure with its numbers in a table.
 * @param draw null where somebody waits: pictures, which take the most time of a report, are then left out
 */
export async function drawCharts<Result>(
  charts: readonly Chart<Result>[],
  result: Result,
  draw: Draw | null = drawHere,
): Promise<Pictures> {
  const files = new Map<string, string>();
  const drawn = await Promise.all(
    charts.map(async (chart) => {
      const drawing = chart.drawing(result);
      const words = { prefix: chart.id, title: chart.title, description: chart.alt(result) };
      const picture = drawing === null || draw === null ? null : await bothWidths(drawing, words, draw);
      return { chart, picture, isLeftOut: drawing !== null && draw === null };
    }),
  );
  for (const { chart, picture } of drawn) {
    if (picture === null) continue;
    files.set(`charts/${chart.id}.vl.json`, prettyJson(picture.spec));
    files.set(`charts/${chart.id}.svg`, picture.svg);
  }
  const figures = drawn.flatMap(({ chart, picture }) => (picture === null ? [] : [figure(chart, picture, result)]));
  return { files, figures: drawn.some(({ isLeftOut }) => isLeftOut) ? [LEFT_OUT, ...figures] : figures };
}

function figure<Result>(chart: Chart<Result>, picture: Drawn, result: Result): string {
  const caption = `<figcaption>${html(chart.caption(result))}</figcaption>`;
  const heading = `<h3 id="chart-${chart.id}">${html(chart.title)}</h3>`;
  return `<figure aria-labelledby="chart-${chart.id}">
${heading}
${pictureHtml(picture, `${chart.title} (picture)`)}
${caption}
<details><summary>Data<span class="hidden"> behind “${html(chart.title)}”</span></summary>
${htmlTable(chart.table(result), chart.title)}
</details>
</figure>`;
}
