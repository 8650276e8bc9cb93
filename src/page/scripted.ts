import { createHash } from 'node:crypto';
import { lineJson } from '../report/json.js';
import { document } from '../report/page.js';
import { styleSheet } from '../report/style.js';

/** Sources of the two bundled scripts of a page. */
export interface Scripts {
  readonly page: string;
  readonly worker: string;
}

/** A page that computes for itself. */
export interface Scripted extends Scripts {
  readonly title: string;
  /** HTML. */
  readonly body: string;
  /** CSS beside the style of every page. */
  readonly style: string;
  /** Plain data that the page reads before it starts. */
  readonly embedded: object;
}

/** A script as it can stand between its tags. */
function between(script: string): string {
  return script.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--').trim();
}

/** A page that needs nothing else: its policy lets in its own script and style, a worker made from it, and no eval. */
export function scriptedPage({ title, body, style, embedded, page, worker }: Scripted): string {
  const script = between(page);
  const sheet = `${styleSheet()}\n${style}`;
  const policy = `default-src 'none'; script-src ${hashOf(script)}; worker-src blob:; style-src ${hashOf(`\n${sheet}\n`)}; img-src data:; base-uri 'none'; form-action 'none'`;
  const scripts = `<script type="application/json" id="embedded">${lineJson(embedded).replaceAll('<', '\\u003c')}</script>
<script type="text/plain" id="worker">${between(worker)}</script>
<script>${script}</script>`;
  return document(title, `${body}\n${scripts}`, sheet, policy);
}

function hashOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}
