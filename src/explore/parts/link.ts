/// <reference lib="dom" />
import type { Field, Form } from '../engine/form.js';

/** What a link says behind the address of the page: values that differ from the page's own scenario, or a whole text. */
export type Linked =
  | { readonly kind: 'values'; readonly values: readonly (readonly [path: string, value: string])[] }
  | { readonly kind: 'text'; readonly text: string };

/** What a link carries; null where it carries nothing. */
export function linkedIn(fragment: string): Linked | null {
  const said = [...new URLSearchParams(fragment.replace(/^#/u, ''))];
  const whole = said.find(([name]) => name === TEXT);
  if (whole !== undefined) return { kind: 'text', text: whole[1] };
  const values = said.flatMap(([name, value]): [string, string][] =>
    name.startsWith(VALUE) ? [[name.slice(VALUE.length), value]] : [],
  );
  return values.length === 0 ? null : { kind: 'values', values };
}

const TEXT = 'text';
const VALUE = 'set.';

/**
 * The link to what is set.
 * @param opened the values of the page's own scenario; null where it is another one that is shown
 */
export function linkTo(address: string, form: Form, text: string, opened: ReadonlyMap<string, Field> | null): string {
  const fields = form.groups.flatMap((group) => group.fields);
  const isSameForm = opened?.size === fields.length && fields.every(({ path }) => opened.has(path));
  const said = isSameForm
    ? fields
        .filter(({ path, value }) => opened.get(path)?.value !== value)
        .map(({ path, value }) => [VALUE + path, value])
    : [[TEXT, text]];
  const fragment = new URLSearchParams(said).toString();
  return `${address.replace(/#.*$/u, '')}${fragment === '' ? '' : `#${fragment}`}`;
}
