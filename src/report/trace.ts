import { fixed } from '../wording/numbers.js';
import type { Provenance } from '../analysis/about.js';
import type { Timeline, TraceEvent } from '../analysis/results.js';
import { timeline as timelineOf } from './charts/timeline.js';
import { closedText, driftText } from './charts/timeline-rows.js';
import { lineJson } from './json.js';
import { document } from './page.js';
import { factsList } from './page/method.js';
import { bothWidths, pictureHtml } from './pictures.js';
import { recordFacts, shortToolText } from './study-facts.js';
import { htmlTable, textTable, type Table } from './table.js';
import { html, plainText } from './text.js';

/** Which replication was traced, and how it was made. */
export interface Traced extends Provenance {
  readonly title: string;
  readonly strategy: string;
  readonly replication: number;
  readonly seed: string;
}

function table(events: readonly TraceEvent[]): Table {
  return {
    columns: [
      { label: 'Time (s)', numeric: true },
      { label: 'Clock' },
      { label: 'Instrument', numeric: true },
      { label: 'What' },
      { label: 'Detail' },
    ],
    rows: events.map((event) => [
      fixed(event.time, 3).replaceAll('\u202f', ''),
      event.clock,
      String(event.instrument + 1),
      event.what,
      event.detail,
    ]),
  };
}

/** The event log as a table in plain text. */
export function traceText(events: readonly TraceEvent[]): string {
  return `${textTable(table(events))}\n`;
}

/** One event as a line of NDJSON, with its newline. */
export function traceLine(event: TraceEvent): string {
  const { time, clock, instrument, what, detail } = event;
  return `${lineJson({ time, clock, instrument, what, detail })}\n`;
}

/** A page for one replication: its timeline and all its events. No script, nothing from outside. */
export async function tracePage(timeline: Timeline, events: readonly TraceEvent[], traced: Traced): Promise<string> {
  const heading = `${plainText(traced.strategy)}, replication ${String(traced.replication)}`;
  const drawing = timelineOf([timeline]);
  const description = `What the instrument’s time went to in replication ${String(traced.replication)}, with the state of the mounted tip below. All events stand in the table.`;
  const picture =
    drawing === null
      ? ''
      : pictureHtml(
          await bothWidths(drawing, { prefix: 'timeline', title: heading, description }),
          'Timeline (picture)',
        );
  const body = `<header>
<p class="kicker">${html(traced.title)}</p>
<h1>${html(heading)}</h1>
</header>
<main>
<section aria-labelledby="timeline">
<h2 id="timeline">Timeline</h2>
<figure aria-labelledby="timeline">
${picture}
<figcaption>Above, what the instrument’s time went to; below, the state of the mounted tip, parted at every change of tip. ${[driftText([timeline]), closedText([timeline])].filter((text) => text !== '').join(' ')}</figcaption>
</figure>
</section>
<section aria-labelledby="events">
<h2 id="events">Events</h2>
${htmlTable(table(events), `${String(events.length)} events, in order`)}
</section>
<section aria-labelledby="again">
<h2 id="again">To trace it again</h2>
${factsList(recordFacts(traced))}
${traced.command === null ? '' : `<pre><code>${html(traced.command)}</code></pre>`}
</section>
</main>
<footer>${html(shortToolText(traced.tool))} · seed ${html(traced.seed)}</footer>`;
  return document(`${heading}: ${plainText(traced.title)}`, body);
}
