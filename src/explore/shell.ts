import { ALWAYS } from '../report/cautions.js';
import { shortToolText } from '../report/study-facts.js';
import { html } from '../report/text.js';
import type { Tool } from '../analysis/about.js';
import { scriptedPage, type Scripts } from '../page/scripted.js';
import { exploreStyle } from './style.js';

/** What the page reads before it starts. */
export interface Embedded {
  /** The scenario that the page was made for; null where it begins with questions. */
  readonly scenario: { readonly file: string; readonly text: string } | null;
  /** One to look at. */
  readonly example: { readonly file: string; readonly text: string };
}

/** Explore as one page that needs nothing else. */
export function explorePage(embedded: Embedded, tool: Tool, scripts: Scripts): string {
  const body = `<noscript><p>This page runs a simulation in your browser, which needs JavaScript.</p></noscript>
<div id="page"></div>
<footer><p>${html(ALWAYS)}</p><p>${html(shortToolText(tool))} · the same program as the command line; nothing leaves this page.</p></footer>`;
  return scriptedPage({
    title: 'Swap or hop: explore a plan',
    ...{ body, style: exploreStyle(), embedded, ...scripts },
  });
}
