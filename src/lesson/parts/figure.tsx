import type { ComponentChildren } from 'preact';
import { DataTable } from '../../page/parts/figure.js';
import type { Table } from '../../report/table.js';

/** The numbers of a picture, under a title. */
export type FigureData = readonly [title: string, table: Table];

interface FigureProps {
  /** What to read from the picture. */
  readonly caption: string;
  /** How far it is computed; null before the first answer. */
  readonly far: { readonly done: number; readonly of: number } | null;
  /** Null where the text beside says the numbers, or there are none yet. */
  readonly data: FigureData | null;
  readonly children: ComponentChildren;
}

/** A picture, how far it is computed, and its numbers. */
export function Figure({ caption, far, data, children }: FigureProps) {
  return (
    <figure>
      {children}
      <progress max={1} value={far === null ? 0 : far.done / far.of} aria-label="Computed so far" />
      <figcaption>{caption}</figcaption>
      {data === null ? null : (
        <details>
          <summary>Data</summary>
          <DataTable caption={data[0]} table={data[1]} />
        </details>
      )}
    </figure>
  );
}

/** A table of numbers, but for its first column. */
export function tableOf(heads: readonly string[], rows: readonly (readonly string[])[]): Table {
  return { columns: heads.map((label, place) => ({ label, numeric: place > 0 })), rows };
}
