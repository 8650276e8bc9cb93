import { max } from 'simple-statistics';
import { graphemes, html, markdown, plainText } from './text.js';

/** A table as data: the first column names the row. Cells are plain text. */
export interface Table {
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
}

export interface Column {
  readonly label: string;
  /** Numbers stand to the right. */
  readonly numeric?: boolean;
}

/** A table of a page, inside a frame that scrolls sideways where the screen is narrow. */
export function htmlTable(table: Table, caption: string): string {
  const side = (column: Column): string => (column.numeric === true ? ' class="number"' : '');
  const head = table.columns.map((column) => `<th scope="col"${side(column)}>${html(column.label)}</th>`).join('');
  const body = table.rows
    .map((row) => {
      const cells = row.map((cell, place) =>
        place === 0
          ? `<th scope="row"${side(table.columns[place])}>${html(cell)}</th>`
          : `<td${side(table.columns[place])}>${html(cell)}</td>`,
      );
      return `<tr>${cells.join('')}</tr>`;
    })
    .join('\n');
  return framed(
    `<table>
<caption><span>${html(caption)}</span></caption>
<thead><tr>${head}</tr></thead>
<tbody>
${body}
</tbody>
</table>`,
    caption,
  );
}

/** A frame that scrolls sideways by mouse and by keyboard. */
export function framed(content: string, label: string): string {
  return `<div class="wide" role="group" tabindex="0" aria-label="${html(label)}">${content}</div>`;
}

export function markdownTable(table: Table): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [
    line(table.columns.map((column) => markdown(column.label))),
    line(table.columns.map((column) => (column.numeric === true ? '---:' : '---'))),
    ...table.rows.map((row) => line(row.map(markdown))),
  ].join('\n');
}

/** Columns of one width in plain text. */
export function textTable(table: Table): string {
  const rows = [table.columns.map((column) => column.label), ...table.rows].map((row) => row.map(plainText));
  const widths = table.columns.map((_, place) => max(rows.map((row) => graphemes(row[place]).length)));
  return rows
    .map((row) =>
      row
        .map((cell, place) =>
          table.columns[place].numeric === true ? cell.padStart(widths[place]) : cell.padEnd(widths[place]),
        )
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
