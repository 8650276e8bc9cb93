import type { Chart } from './charts/chart.js';
import { prettyJson } from './json.js';
import { inPage, renderPicture } from './render.js';
import { framed, htmlTable } from './table.js';
import { html } from './text.js';

/** The charts of a report: their files by name, and how each stands in its page. */
export interface Pictures {
  readonly files: ReadonlyMap<string, string>;
  /** HTML, in the order of the charts. */
  readonly figures: readonly string[];
}

/** Draws every chart of a study's results: specification, picture, and figure with its numbers in a table. */
export async function drawCharts<Result>(charts: readonly Chart<Result>[], result: Result): Promise<Pictures> {
  const files = new Map<string, string>();
  const figures: string[] = [];
  for (const chart of charts) {
    const spec = chart.spec(result);
    if (spec === null) {
      figures.push(figure(chart, null, result));
      continue;
    }
    const { svg } = await renderPicture(spec, {
      prefix: chart.id,
      title: chart.title,
      description: chart.alt(result),
    });
    files.set(`charts/${chart.id}.vl.json`, prettyJson(spec));
    files.set(`charts/${chart.id}.svg`, svg);
    figures.push(figure(chart, svg, result));
  }
  return { files, figures };
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
