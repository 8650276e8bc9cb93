import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

let known: string | null = null;

/**
 * A hash of this program as it lies here. A version or a commit would not do to tell whether an answer that was kept is one
 * that this program gives: whoever works on it has many programs of one version.
 */
export function programHash(): string {
  known ??= hashOf(ROOT);
  return known;
}

function hashOf(folder: string): string {
  const hash = createHash('sha256');
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => /\.[jt]s$/.test(name));
  for (const name of files.sort()) hash.update(`${name}\n`).update(readFileSync(join(folder, name)));
  return hash.digest('hex');
}
