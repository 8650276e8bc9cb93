/** Writes the two scripts of the lesson beside this file: run once by the build, so that an installed package needs no bundler. */

import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'esbuild';
import { noticesOf } from './notices.js';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Left out, as neither the messages of scenarios nor the charts of the lesson use them: languages, and kinds of layout. */
const UNUSED =
  /[\\/]zod[\\/]v4[\\/]locales[\\/]index\.js$|[\\/]vega-(?:crossfilter|force|geo|hierarchy|label|regression|voronoi|wordcloud)[\\/].*\.js$/;

const withoutUnused: Plugin = {
  name: 'without-unused',
  setup(bundle) {
    bundle.onLoad({ filter: UNUSED }, () => ({ contents: 'export {};' }));
  },
};

const { metafile } = await build({
  plugins: [withoutUnused],
  entryPoints: [here('page.js'), here('worker.js')],
  outdir: here('bundles'),
  bundle: true,
  minify: true,
  format: 'iife',
  target: 'es2022',
  charset: 'utf8',
  legalComments: 'none',
  logLevel: 'warning',
  metafile: true,
});

const bundled = Object.values(metafile.outputs).flatMap(({ inputs }) =>
  Object.entries(inputs).flatMap(([file, { bytesInOutput }]) => (bytesInOutput > 0 ? [file] : [])),
);
writeFileSync(here('bundles/NOTICES.txt'), noticesOf(bundled));
