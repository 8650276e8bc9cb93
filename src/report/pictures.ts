import type { TopLevelSpec } from 'vega-lite';
import type { Chart } from './charts/chart.js';
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
  '<p>Pictures were left out, since the work was stopped by hand before they were drawn. Their numbers stand in the files beside this page.</p>';

let last: Promise<unknown> = Promise.resolve();

/** Draws in place, one picture after the other, as the drawing library numbers its definitions for all of them together. */
export const drawHere: Draw = (spec, words) => {
  const next = last.then(() => renderPicture(spec, words));
  last = next.catch(() => undefined);
  return next.then(({ svg }) => svg);
};

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
      const spec = chart.spec(result);
      const words = { prefix: chart.id, title: chart.title, description: chart.alt(result) };
      return { chart, spec, svg: spec === null || draw === null ? null : await draw(spec, words) };
    }),
  );
  for (const { chart, spec, svg } of drawn) {
    if (spec === null || svg === null) continue;
    files.set(`charts/${chart.id}.vl.json`, prettyJson(spec));
    files.set(`charts/${chart.id}.svg`, svg);
  }
  const isLeftOut = ({ spec, svg }: { spec: TopLevelSpec | null; svg: string | null }) => spec !== null && svg === null;
  const figures = drawn.filter((each) => !isLeftOut(each)).map(({ chart, svg }) => figure(chart, svg, result));
  return { files, figures: drawn.some(isLeftOut) ? [LEFT_OUT, ...figures] : figures };
}

function figure<Result>(chart: Chart<Result>, svg: string | null, result: Result): string {
  const caption = `<figcaption>${html(chart.caption(result))}</figcaption>`;
  const heading = `<h3 id="chart-${chart.id}">${html(chart.title)}</h3>`;
  if (svg === null) return `<figure aria-labelledby="chart-${chart.id}">\n${heading}\n${caption}\n</figure>`;
  return `<figure aria-labelledby="chart-${chart.id}">
${heading}
${framed(inPage(svg), `${chart.title} (picture)`)}
${caption}
<details><summary>The numbers<span class="hidden"> behind “${html(chart.title)}”</span></summary>
${htmlTable(chart.table(result), chart.title)}
</details>
</figure>`;
}
