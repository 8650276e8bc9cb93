/** Bundles the scripts of a page: run once by the build, so that an installed package needs no bundler. */

import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'esbuild';
import { noticesOf } from './notices.js';

/** The languages of messages that no page uses. */
const withoutLanguages: Plugin = {
  name: 'without-languages',
  setup(bundle) {
    bundle.onLoad({ filter: /[\\/]zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({ contents: 'export {};' }));
  },
};

/**
 * Writes `bundles/page.js` and `bundles/worker.js`, with the licences of what is in them.
 * @param from address of the module beside which `page.js`, `worker.js` and the folder lie
 */
export async function bundleScripts(from: string): Promise<void> {
  const beside = (path: string) => fileURLToPath(new URL(path, from));
  const { metafile } = await build({
    plugins: [withoutLanguages],
    entryPoints: [beside('page.js'), beside('worker.js')],
    outdir: beside('bundles'),
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
  writeFileSync(beside('bundles/NOTICES.txt'), noticesOf(bundled));
}
