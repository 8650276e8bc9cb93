import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Scripts } from '../page/scripted.js';

/** The scripts of a page that computes for itself, as the build has bundled them. */
export function scriptsOf(page: 'lesson' | 'explore'): Scripts {
  const read = (name: string) =>
    readFileSync(fileURLToPath(new URL(`../${page}/bundles/${name}.js`, import.meta.url)), 'utf8');
  return { page: read('page'), worker: read('worker') };
}
