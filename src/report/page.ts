import type { Summary } from '../study/results.js';
import type { Chart } from './charts/chart.js';
import { numberText, workScale } from './format.js';
import { headlineSection } from './page/headline.js';
import { cautionsSection, methodSection } from './page/method.js';
import { registerSection } from './page/register.js';
import { verdictSection } from './page/verdict.js';
import { inPage } from './render.js';
import { styleSheet } from './style.js';
import { framed, htmlTable } from './table.js';
import { html } from './text.js';

/** A chart with its picture; none where there is nothing to draw. */
export interface DrawnChart {
  readonly chart: Chart;
  readonly svg: string | null;
}

/** A page that needs nothing from outside and runs no script. `body` is HTML, `title` plain text. */
export function document(title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${html(title)}</title>
<style>
${styleSheet()}
</style>
</head>
<body>
${body}
</body>
</html>
`;
}

/** `report.html`: what the comparison found, from the verdict down to the assumptions. */
export function reportPage(summary: Summary, charts: readonly DrawnChart[], command: string): string {
  const { scenario, tool } = summary;
  const facts: readonly (readonly [string, string])[] = [
    ['Images', `${numberText(scenario.images)} of ${numberText(scenario.regions)} regions`],
    ['Scan time', numberText(scenario.scanTime, workScale(scenario.scanTime))],
    ['Sliding path', numberText(scenario.slidingPath, { divisor: 1, unit: 'mm' })],
    ['Order', scenario.order],
    ['Bookings', scenario.bookings],
    ...(scenario.instruments > 1 ? [['Instruments', String(scenario.instruments)] as const] : []),
    ...(scenario.operators > 1 ? [['Operators', String(scenario.operators)] as const] : []),
    ...(summary.allocation === null ? [] : [['Granted', summary.allocation.text] as const]),
  ];
  const about = scenario.about === null ? '' : `\n<p class="about">${html(scenario.about)}</p>`;
  const body = `<header>
<p class="kicker">Swapping and hopping compared for one measurement plan</p>
<h1>${html(scenario.title)}</h1>${about}
<dl class="facts">${facts.map(([name, text]) => `<div><dt>${name}</dt><dd>${html(text)}</dd></div>`).join('')}</dl>
</header>
<main>
${verdictSection(summary)}
${headlineSection(summary)}
<section aria-labelledby="charts">
<h2 id="charts">In pictures</h2>
${charts.map((drawn) => figure(drawn, summary)).join('\n')}
</section>
${registerSection(summary)}
${cautionsSection(summary)}
${methodSection(summary, command)}
</main>
<footer>${html(tool.name)} ${html(tool.version)} · ${html(scenario.file)} · seed ${html(summary.seed)}</footer>`;
  return document(scenario.title, body);
}

function figure({ chart, svg }: DrawnChart, summary: Summary): string {
  const caption = `<figcaption>${html(chart.caption(summary))}</figcaption>`;
  const heading = `<h3 id="chart-${chart.id}">${html(chart.title)}</h3>`;
  if (svg === null) return `<figure aria-labelledby="chart-${chart.id}">\n${heading}\n${caption}\n</figure>`;
  const table = chart.table(summary);
  return `<figure aria-labelledby="chart-${chart.id}">
${heading}
${framed(inPage(svg), `${chart.title} (picture)`)}
${caption}
<details><summary>The numbers<span class="hidden"> behind “${html(chart.title)}”</span></summary>
${htmlTable(table, chart.title)}
</details>
</figure>`;
}
