/** Bundles the program and its threads: run once by the build, as reading hundreds of modules takes longer than the work. */

import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'esbuild';
import { noticesOf } from '../page/notices.js';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const built = here('../');
const folder = here('../bundled/');

/** Modules of ours find files by where they lie themselves, and go on to do so from a bundle. */
const placed: Plugin = {
  name: 'placed',
  setup(bundle) {
    bundle.onLoad({ filter: /\.js$/ }, ({ path }) => {
      if (!path.startsWith(built)) return null;
      const place = JSON.stringify(relative(folder, path).split(sep).join('/'));
      const contents = readFileSync(path, 'utf8');
      return { contents: contents.replaceAll('import.meta.url', `new URL(${place}, import.meta.url).href`) };
    });
  },
};

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder);
const { metafile } = await build({
  plugins: [placed],
  entryPoints: [here('program.js'), here('worker.js')],
  outdir: folder,
  entryNames: '[name]',
  chunkNames: 'part-[hash]',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  // It starts threads from a file of its own, which it finds by where it lies.
  external: ['tinypool'],
  // Libraries of the older form ask for modules of Node's by this.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);",
  },
  legalComments: 'none',
  logLevel: 'warning',
  metafile: true,
});
writeFileSync(`${folder}NOTICES.txt`, noticesOf(Object.keys(metafile.inputs)));
