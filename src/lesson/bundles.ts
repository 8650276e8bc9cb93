/** Writes the two scripts of the lesson beside this file: run once by the build, so that an installed package needs no bundler. */

import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

await build({
  entryPoints: [here('page.js'), here('worker.js')],
  outdir: here('bundles'),
  bundle: true,
  minify: true,
  format: 'iife',
  target: 'es2022',
  charset: 'utf8',
  legalComments: 'none',
  logLevel: 'warning',
});
