import { cautionsSection } from '../report/page/method.js';
import { shortToolText } from '../report/study-facts.js';
import { html } from '../report/text.js';
import type { Tool } from '../analysis/about.js';
import { scriptedPage, type Scripts } from '../page/scripted.js';
import type { Facts } from './facts.js';
import { lessonStyle } from './style.js';

/** What goes into a lesson's page. */
export interface Lesson extends Scripts {
  readonly facts: Facts;
  /** Text of the scenario file. */
  readonly scenario: string;
  /** Said of the scenario by itself; null where it says nothing. */
  readonly about: string | null;
  readonly cautions: readonly string[];
  readonly tool: Tool;
  /** SHA-256 of the scenario file, in hexadecimal digits. */
  readonly sha256: string;
}

/** What the page reads before it starts. */
export interface Embedded {
  readonly facts: Facts;
  readonly scenario: string;
}

/** The lesson as one page that needs nothing else. */
export function lessonPage({ facts, scenario, about, cautions, tool, sha256, page, worker }: Lesson): string {
  const embedded: Embedded = { facts, scenario };
  const body = `<header>
<p class="kicker">A lesson in the time that a probe costs</p>
<h1>Why rushing costs time</h1>
<p class="about">Images are made with a tip that wears, picks up contamination and breaks. Lose a session here in three minutes, and save it in the laboratory.</p>
<dl class="facts"><div><dt>Scenario</dt><dd>${html(facts.title)}</dd></div></dl>${about === null ? '' : `\n<p class="note">${html(about)}</p>`}
</header>
<main>
<noscript><p>This page runs a simulation in your browser, which needs JavaScript.</p></noscript>
<div id="parts"></div>
${cautionsSection({ cautions })}
</main>
<footer>${html(shortToolText(tool))} · ${html(facts.file)} (SHA-256 ${sha256.slice(0, 10)}…) · seed ${html(facts.seed)} · the same program as the command line; what is assumed in the scenario is assumed here.</footer>`;
  return scriptedPage({
    title: `Why rushing costs time: ${facts.title}`,
    ...{ body, style: lessonStyle(), embedded, page, worker },
  });
}
