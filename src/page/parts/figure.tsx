import type { ComponentChildren } from 'preact';
import type { Table } from '../../report/table.js';
import { plainText, unbroken } from '../../report/text.js';

interface FigureProps {
  readonly title: string;
  /** What to read from the picture. */
  readonly caption: string;
  readonly table: Table;
  readonly children: ComponentChildren;
}

/** A picture with what it says and its numbers. */
export function Figure({ title, caption, table, children }: FigureProps) {
  return (
    <figure>
      <h3>{title}</h3>
      {children}
      <figcaption>{unbroken(plainText(caption))}</figcaption>
      <details>
        <summary>Data</summary>
        <DataTable caption={title} table={table} />
      </details>
    </figure>
  );
}

/** A table in a frame that scrolls sideways by mouse and by keyboard. */
export function DataTable({ caption, table }: { readonly caption: string; readonly table: Table }) {
  const side = (place: number) => (table.columns[place].numeric === true ? 'number' : undefined);
  return (
    <div class="wide" role="group" tabIndex={0} aria-label={caption}>
      <table>
        <caption>
          <span>{caption}</span>
        </caption>
        <thead>
          <tr>
            {table.columns.map(({ label }, place) => (
              <th scope="col" class={side(place)}>
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row) => (
            <tr>
              {row.map((cell, place) =>
                place === 0 ? <th scope="row">{plainText(cell)}</th> : <td class={side(place)}>{plainText(cell)}</td>,
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What the colours and dashes of strategies mean. */
export function Legend({ names }: { readonly names: readonly string[] }) {
  return (
    <ul class="legend">
      {names.map((name, place) => (
        <li>
          <span class={`key strategy-${(place % 8) + 1}`} />
          {name}
        </li>
      ))}
    </ul>
  );
}
