import { readFileSync } from 'node:fs';
import { z } from 'zod';

const packageFile = new URL('../../package.json', import.meta.url);

/** The version of this program, from its package.json. */
export function toolVersion(): string {
  return z.object({ version: z.string() }).parse(JSON.parse(readFileSync(packageFile, 'utf8'))).version;
}
