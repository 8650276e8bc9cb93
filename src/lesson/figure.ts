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
  private readonly details: HTMLElement;

  /** @param caption what to read from the picture */
  constructor(name: string, caption: string) {
    const frame = (label: string, ...children: readonly Node[]) =>
      element('div', { class: 'wide', role: 'group', tabindex: 0, 'aria-label': label }, ...children);
    this.frame = frame(`${name} (picture)`);
    this.numbers = frame(`${name} (numbers)`);
    this.details = element('details', { hidden: true }, element('summary', {}, 'The numbers'), this.numbers);
    this.node = element('figure', {}, this.frame, this.progress, element('figcaption', {}, caption), this.details);
  }

  /** Room for the picture. */
  get width(): number {
    return chartWidth(this.frame);
  }

  /** @param svg null where the picture stays as it is, @param table null where the text beside says the numbers */
  show(svg: string | null, share: number, table: HTMLElement | null): void {
    if (svg !== null) this.frame.replaceChildren(pictureOf(svg));
    this.progress.value = share;
    if (table !== null) this.numbers.replaceChildren(table);
    this.details.hidden = table === null;
  }
}
