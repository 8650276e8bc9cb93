import { shellLine } from '../../scenario/shell-line.js';
import { button, element } from '../dom.js';
import { statusLine } from '../controls.js';
import type { Part, Stage } from '../part.js';
import type { NumberSetting } from '../state.js';
import type { Numbers } from '../tasks/numbers.js';

const HOW_MANY: NumberSetting = { key: 'numbers-replications', start: 200, least: 2, most: 20_000, step: 1 };

/** Shown of each strategy, and what it is called. */
const SHOWN = [
  ['totalTime', 'Total time (s)'],
  ['yield', 'Yield'],
  ['tips', 'Tips'],
] as const;

function numbersTable({ strategies }: Numbers): HTMLElement {
  return element(
    'table',
    {},
    element('caption', {}, 'Means over the replications, to the last digit'),
    element(
      'thead',
      {},
      element(
        'tr',
        {},
        ...['Strategy', ...SHOWN.map(([, name]) => name)].map((name) => element('th', { scope: 'col' }, name)),
      ),
    ),
    element(
      'tbody',
      {},
      ...strategies.map(({ name, measures }) =>
        element(
          'tr',
          {},
          element('th', { scope: 'row' }, name),
          ...SHOWN.map(([measure]) => element('td', { 'data-measure': measure }, String(measures[measure].value))),
        ),
      ),
    ),
  );
}

function content({ engine, facts, state, seed }: Stage): readonly Node[] {
  const input = element('input', { type: 'number', id: HOW_MANY.key, min: HOW_MANY.least, max: HOW_MANY.most });
  input.value = String(state.number(HOW_MANY));
  const said = statusLine();
  const table = element('div', { class: 'wide', role: 'group', tabindex: 0, 'aria-label': 'Means of every strategy' });
  let drop: (() => void) | null = null;
  const run = () => {
    if (Number.isFinite(input.valueAsNumber)) state.put(HOW_MANY, input.valueAsNumber);
    const replications = state.number(HOW_MANY);
    input.value = String(replications);
    drop?.();
    drop = engine.ask(
      'numbers',
      { changes: [], seed, replications },
      {
        onAnswer: (answer) => {
          table.replaceChildren(numbersTable(answer));
        },
        onEnd: () => {
          said.textContent = `Done: ${replications} replications of every strategy.`;
        },
        onFault: (message) => {
          said.textContent = message;
        },
      },
    );
    said.textContent = 'Running …';
  };
  const line = `${shellLine('compare', facts.file, { seed: seed ?? undefined })} --json --replications N`;
  return [
    element(
      'p',
      {},
      'This page runs the same program as the command line, with the same random numbers. To check that, compare the two:',
    ),
    element('pre', {}, element('code', {}, line)),
    element(
      'div',
      { class: 'controls' },
      element('div', {}, element('label', { for: HOW_MANY.key }, 'Replications N'), input),
    ),
    element('div', { class: 'row' }, button('Run them here', run)),
    said,
    table,
  ];
}

export const sameNumbers: Part = { id: 'numbers', title: 'The same numbers as the command line', content };
