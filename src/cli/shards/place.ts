import { existsSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Share } from '../../study/work/share.js';
import { EXIT, Failure, systemReason } from '../failure.js';
import type { SharedStudy } from './about.js';
import { openShard } from './open.js';
import { plainName } from '../plain-name.js';

/** The file of a shard; its name tells scenario, study and share, and sorts by the number. */
export function shardPlace(
  { file, out }: { readonly file: string; readonly out?: string | undefined },
  study: SharedStudy,
  { number, of }: Share,
): string {
  const name = study === 'compare' ? plainName(file) : `${plainName(file)}-${study}`;
  const padded = String(number).padStart(String(of).length, '0');
  return join(out ?? join('reports', `${name}-shards`), `${name}.${padded}-of-${of}.parquet`);
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
