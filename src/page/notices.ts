/** The licences of what is bundled: whoever hands on the bundles hands on these texts with them. Used by the build alone. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';

const described = z.object({ name: z.string(), version: z.string(), license: z.string() });

/**
 * Name, version and licence of every library among some files, each text once below those that have it.
 * @param files paths of what was bundled, as `node_modules/zod/index.js`
 */
export function noticesOf(files: readonly string[]): string {
  const folders = new Set(
    files.flatMap((file) => /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/u.exec(file)?.[0] ?? []),
  );
  const having = new Map<string, string[]>();
  for (const folder of folders) {
    const { name, version, license } = described.parse(JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')));
    const text = textIn(folder);
    having.set(text, [...(having.get(text) ?? []), `${name} ${version} (${license})`]);
  }
  const notices = [...having].map(([text, names]) => `${names.sort().join('\n')}\n\n${text}`);
  return `${notices.sort().join(`\n\n${'-'.repeat(80)}\n\n`)}\n`;
}

function textIn(folder: string): string {
  const file = readdirSync(folder).find((name) => /^licen[cs]e(?:\.(?:md|txt))?$/iu.test(name));
  const notice = join(folder, 'NOTICE');
  return [...(file === undefined ? [] : [join(folder, file)]), ...(existsSync(notice) ? [notice] : [])]
    .map((path) => readFileSync(path, 'utf8').trim())
    .join('\n\n');
}
