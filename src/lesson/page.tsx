/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
/** Entry of the page: puts the parts of the lesson into it. */

import { render } from 'preact';
import { Engine } from './engine.js';
import { PARTS } from './parts/index.js';
import type { Embedded } from './shell.js';
import type { StageProps } from './stage.js';
import { State } from './state.js';

/** The page and what is embedded in it are of one build. */
function isEmbedded(data: unknown): data is Embedded {
  return typeof data === 'object' && data !== null && 'facts' in data;
}

function Parts({ stage }: StageProps) {
  return (
    <>
      {PARTS.map(({ id, title, Content }) => (
        <section class="lesson" id={`part-${id}`} aria-labelledby={id}>
          <h2 id={id}>{title}</h2>
          <Content stage={stage} />
        </section>
      ))}
    </>
  );
}

function mount(engine: Engine, { facts }: Embedded, place: HTMLElement): void {
  const state = new State(location.hash, (fragment) => {
    history.replaceState(null, '', fragment === '' ? location.pathname : fragment);
  });
  const seed = state.text({ key: 'seed', form: /^.{1,200}$/u });
  render(null, place);
  render(<Parts stage={{ engine, facts, state, seed: seed === '' ? null : seed }} />, place);
}

const place = document.getElementById('parts');
const embedded: unknown = JSON.parse(document.getElementById('embedded')?.textContent ?? 'null');
const worker = document.getElementById('worker')?.textContent;
if (place !== null && worker !== undefined && isEmbedded(embedded)) {
  const engine = new Engine(worker, embedded.scenario);
  mount(engine, embedded, place);
  // A link of this page, followed in it, brings its own state.
  addEventListener('hashchange', () => {
    mount(engine, embedded, place);
  });
}
