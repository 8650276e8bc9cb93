import { readFileSync } from 'node:fs';
import * as z from 'zod';
import type { Maker, Platform } from '../analysis/about.js';
import { again } from './again.js';
import { systemCode } from '../scenario/failure.js';

const packageFile = new URL('../../package.json', import.meta.url);
/** Written by the build, so that a package carries it. */
export const commitFile = new URL('../commit.json', import.meta.url);

/** The version of this program, from its package.json. */
export function toolVersion(): string {
  return z.object({ version: z.string() }).parse(JSON.parse(readFileSync(packageFile, 'utf8'))).version;
}

/** The commit that this program was built from; null where it was not built in a work tree of its own. */
export function toolCommit(): string | null {
  try {
    return z.object({ commit: z.string().nullable() }).parse(JSON.parse(readFileSync(commitFile, 'utf8'))).commit;
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null;
    throw error;
  }
}

export function platformHere(): Platform {
  return { system: process.platform, architecture: process.arch, node: process.versions.node };
}

/** What every study puts on record of the program and the machine: these, unless it is made again for somebody else's. */
export function recordedHere(): Maker {
  return again.getStore()?.maker ?? makerHere();
}

export function makerHere(): Maker {
  return { toolVersion: toolVersion(), commit: toolCommit(), platform: platformHere() };
}
