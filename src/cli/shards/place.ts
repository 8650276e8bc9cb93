import { existsSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Share } from '../../execution/share.js';
import { EXIT, Failure, systemReason } from '../../scenario/failure.js';
import { openShard } from './open.js';

/**
 * The file of a shard; its name tells scenario, study and share, and sorts by the number.
 * @param name of the report that all shards make
 */
export function shardPlace(name: string, out: string | undefined, { number, of }: Share): string {
  const padded = String(number).padStart(String(of).length, '0');
  return join(out ?? join('reports', `${name}-shards`), `${name}.${padded}-of-${of}.shard`);
}

/** Makes the folder of a shard; a place that is taken by anything but an earlier shard is refused before any work is done. */
export function makeRoom(file: string): void {
  try {
    mkdirSync(dirname(file), { recursive: true });
  } catch (error) {
    throw new Failure(`${dirname(file)} cannot be used as a folder for shards: ${systemReason(error)}`, EXIT.failed);
  }
  if (!existsSync(file)) return;
  try {
    openShard(file);
  } catch (error) {
    if (!(error instanceof Failure)) throw error;
    throw new Failure(`${file} is there already and is no shard; choose another folder with --out`);
  }
}
