import type { MidwayResult, NextImages } from './results.js';
import { document } from '../../report/page.js';
import { html, markdown, unbroken } from '../../report/text.js';
import { SCAN_COLUMNS } from './scan-log.js';
import { SHEET_STYLE } from './sheet-style.js';
import { type Sheet, type SheetBlock, sheetsOf } from './sheet-text.js';

/** Empty lines of the log to be kept by hand. */
const LOG_ROWS = 6;

/** `run-sheet.html`: one page of A4 an instrument, to be printed. */
export function runSheetPage(result: MidwayResult): string {
  const sheets = sheetsOf(result).map(sheetHtml);
  return document(`Run sheet: ${result.scenario.title}`, `<main>\n${sheets.join('\n')}\n</main>`, SHEET_STYLE);
}

function sheetHtml(sheet: Sheet): string {
  const text = (line: string): string => html(unbroken(line));
  const block = ({ title, lines, isOrdered }: SheetBlock): string => {
    const list = isOrdered === true ? 'ol' : 'ul';
    return `<section><h2>${html(title)}</h2><${list}>${lines.map((line) => `<li>${text(line)}</li>`).join('')}</${list}></section>`;
  };
  const cautions = sheet.cautions.map(({ title, text: words }) => `<li><b>${html(title)}.</b> ${text(words)}</li>`);
  const next = sheet.next.map(
    (group) =>
      `<section class="next"><h2>${text(nextTitle(group))}</h2><ul>${group.images.map((image) => `<li>${text(image)}</li>`).join('')}</ul></section>`,
  );
  const rows = Array.from({ length: LOG_ROWS }, () => `<tr>${SCAN_COLUMNS.map(() => '<td></td>').join('')}</tr>`);
  return `<article>
<header><p class="kicker">Run sheet</p><h1>${text(sheet.heading)}</h1>
${sheet.about.map((line) => `<p>${text(line)}</p>`).join('')}</header>
<div class="blocks">${sheet.blocks.map(block).join('\n')}</div>
${next.join('\n')}
<section class="log"><h2>Log</h2><table><thead><tr>${SCAN_COLUMNS.map((column) => `<th scope="col">${html(column)}</th>`).join('')}</tr></thead><tbody>${rows.join('')}</tbody></table></section>
<section class="cautions"><h2>Usual cautions</h2><p><b>${text(sheet.always)}</b></p><ul>${cautions.join('')}</ul></section>
<footer>${html(sheet.foot)}</footer>
</article>`;
}

function nextTitle({ sample }: NextImages): string {
  return sample === null ? 'Next images' : `Next images, ${sample}`;
}

/** `run-sheet.md`: the same, for a laboratory's notebook. */
export function runSheetMarkdown(result: MidwayResult): string {
  return `${sheetsOf(result).map(sheetMarkdown).join('\n\n---\n\n')}\n`;
}

function sheetMarkdown(sheet: Sheet): string {
  const block = ({ title, lines, isOrdered }: SheetBlock): string =>
    [
      `## ${markdown(title)}`,
      lines.map((line, i) => `${isOrdered === true ? `${i + 1}.` : '-'} ${markdown(line)}`).join('\n'),
    ].join('\n\n');
  return [
    `# Run sheet: ${markdown(sheet.heading)}`,
    ...sheet.about.map(markdown),
    ...sheet.blocks.map(block),
    ...sheet.next.flatMap((group) => [
      `## ${markdown(nextTitle(group))}`,
      group.images.map((image) => `- [ ] ${markdown(image)}`).join('\n'),
    ]),
    '## Usual cautions',
    `**${markdown(sheet.always)}**`,
    sheet.cautions.map(({ title, text }) => `- **${markdown(title)}.** ${markdown(text)}`).join('\n'),
    markdown(sheet.foot),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}
