import { shellLine } from '../scenario/shell-line.js';
import type { Change } from './change.js';
import { statusLine } from './controls.js';
import { button, element } from './dom.js';
import type { Stage } from './part.js';

/** Buttons to carry away what a part shows: a link with the state of the page, and its scenario for the command line. */
export function tools({ engine, facts, seed }: Stage, id: string, changes: () => readonly Change[]): HTMLElement {
  const said = statusLine();
  const place = element('span', {});
  const copy = button('Copy a link to this', () => {
    const { href } = location;
    navigator.clipboard.writeText(href).then(
      () => {
        said.textContent = 'The link is in the clipboard; whoever opens it beside this page sees what you see.';
      },
      () => {
        const field = element('input', { type: 'text', readonly: true, value: href, 'aria-label': 'Link to this' });
        place.replaceChildren(field);
        field.select();
        said.textContent = 'Copy the link from the field.';
      },
    );
  });
  const file = `${facts.file.replace(/\.ya?ml$/iu, '')}-${id}.yaml`;
  const save = button('Save this scenario', () => {
    engine.ask(
      'save',
      { changes: changes(), seed },
      {
        onAnswer: (text) => {
          download(file, text);
          said.textContent = `Saved as ${file}; try it with: ${shellLine('compare', file)}`;
        },
        onFault: (message) => {
          said.textContent = message;
        },
      },
    );
  });
  return element('div', {}, element('div', { class: 'row' }, copy, save, place), said);
}

function download(file: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  element('a', { href: address, download: file }).click();
  // The browser reads it a moment later.
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 60_000);
}
