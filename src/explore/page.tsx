/// <reference lib="dom" />
/** Entry of the page. */

import { render } from 'preact';
import { App } from './parts/app.js';
import type { Embedded } from './shell.js';

/** The page and what is embedded in it are of one build. */
function isEmbedded(data: unknown): data is Embedded {
  return typeof data === 'object' && data !== null && 'example' in data;
}

const place = document.getElementById('page');
const embedded: unknown = JSON.parse(document.getElementById('embedded')?.textContent ?? 'null');
const worker = document.getElementById('worker')?.textContent;
if (place !== null && worker !== undefined && isEmbedded(embedded))
  render(<App embedded={embedded} worker={worker} />, place);
