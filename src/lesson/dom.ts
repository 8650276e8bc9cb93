/** Small typed helpers for elements. Text always goes in as text. */

type Child = Node | string;
type Attributes = Readonly<Record<string, string | number | boolean>>;

/** An element with attributes (`true` sets one without a value, `false` leaves it out) and children. */
export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes))
    if (value !== false) made.setAttribute(name, value === true ? '' : String(value));
  made.append(...children);
  return made;
}

/** A button that does something; its text is its name. */
export function button(text: string, action: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const made = element('button', { type: 'button', ...attributes }, text);
  made.addEventListener('click', action);
  return made;
}

/** A picture drawn by the worker. */
export function pictureOf(svg: string): Node {
  return document.importNode(new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement, true);
}

/** Width of an element in the units in which charts are drawn: CSS pixels at the usual text size. */
export function chartWidth(holder: Element): number {
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  const width = holder.getBoundingClientRect().width * (16 / rem);
  return Math.max(300, Math.min(928, Math.floor(width)));
}
