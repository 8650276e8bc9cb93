import { chartWidth, element, pictureOf } from './dom.js';

/** A row of a table: what it is about, then its numbers as text. */
export type Row = readonly string[];

export function dataTable(caption: string, heads: Row, rows: readonly Row[]): HTMLElement {
  return element(
    'table',
    {},
    element('caption', {}, caption),
    element('thead', {}, element('tr', {}, ...heads.map((head) => element('th', { scope: 'col' }, head)))),
    element(
      'tbody',
      {},
      ...rows.map(([name, ...cells]) =>
        element('tr', {}, element('th', { scope: 'row' }, name), ...cells.map((cell) => element('td', {}, cell))),
      ),
    ),
  );
}

/** Where a picture, how far it is computed, and its numbers stand. */
export class Figure {
  readonly node: HTMLElement;
  private readonly frame: HTMLElement;
  private readonly progress = element('progress', { max: 1, value: 0, 'aria-label': 'Computed so far' });
  private readonly numbers: HTMLElement;

  /** @param caption what to read from the picture */
  constructor(name: string, caption: string) {
    const frame = (label: string, ...children: readonly Node[]) =>
      element('div', { class: 'wide', role: 'group', tabindex: 0, 'aria-label': label }, ...children);
    this.frame = frame(`${name} (picture)`);
    this.numbers = frame(`${name} (numbers)`);
    this.node = element(
      'figure',
      {},
      this.frame,
      this.progress,
      element('figcaption', {}, caption),
      element('details', {}, element('summary', {}, 'The numbers'), this.numbers),
    );
  }

  /** Room for the picture. */
  get width(): number {
    return chartWidth(this.frame);
  }

  show(svg: string, share: number, table: HTMLElement): void {
    this.frame.replaceChildren(pictureOf(svg));
    this.progress.value = share;
    this.numbers.replaceChildren(table);
  }
}
