/** Parts of the pages on a log of tips and on a table of drift. Texts are plain, what is returned is HTML. */

import type { AboutLog } from './results.js';
import { htmlTable, type Table } from '../../report/table.js';
import { capital, counted } from '../../wording/phrases.js';
import { html, unbroken } from '../../report/text.js';
import { columnsTable, readAsTable, rowsTable } from './tables.js';

export function section(id: string, title: string, parts: readonly string[]): string {
  return `<section aria-labelledby="${id}">
<h2 id="${id}">${html(title)}</h2>
${parts.join('\n')}
</section>`;
}

/** Nothing where the table has no rows. */
export function optional(id: string, title: string, table: Table, caption: string): string {
  return table.rows.length === 0 ? '' : section(id, title, [htmlTable(table, caption)]);
}

/** What was read, and what was not. */
export function logSection(log: AboutLog): string {
  return section('log', 'The table as it was read', [
    `<details><summary>How its columns were read</summary>\n${htmlTable(columnsTable(log), 'Columns')}\n</details>`,
    ...(log.readAs.length === 0 ? [] : [htmlTable(readAsTable(log), 'Words that were read as others')]),
    log.notUsed.length === 0
      ? `<p>Every row of a tip could be used${log.leftOut === 0 ? '' : `; ${counted(log.leftOut, 'row')} left out: sums of other rows, or tips of a kind that is not wanted`}.</p>`
      : htmlTable(rowsTable(log), 'Rows that could not be used'),
  ]);
}

/** @param file that holds the same */
export function pasteSection(file: string, block: string): string {
  return section('paste', 'To paste into a scenario', [
    `<p>The same as <code>${html(file)}</code>. <code>--into FILE</code> writes it there, comments kept. The covariances are of the logs of the values; a comparison draws from them.</p>`,
    `<pre tabindex="0"><code>${preformatted(block)}</code></pre>`,
  ]);
}

/** Words in backticks become code. */
export function codeHtml(text: string): string {
  return html(unbroken(text)).replace(/`([^`]*)`/gu, '<code>$1</code>');
}

export function sayAgain(warning: string): string {
  return `${capital(warning)}.`;
}

/** Text whose line breaks and indents count. */
function preformatted(text: string): string {
  return text
    .trimEnd()
    .split('\n')
    .map((line) => `${/^ */u.exec(line)?.[0] ?? ''}${html(line)}`)
    .join('\n');
}
