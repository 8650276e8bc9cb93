import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';

/** Every file in a folder and those below it, as text by its name. */
export function filesOf(folder: string): ReadonlyMap<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = files.map((entry) => join(entry.parentPath, entry.name)).sort();
  return new Map(paths.map((path) => [relative(folder, path), readFileSync(path, 'utf8')]));
}
