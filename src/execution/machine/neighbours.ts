import { createHash, randomBytes } from 'node:crypto';
import { lstatSync, readdirSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { systemCode } from '../../scenario/failure.js';

/**
 * What is not finished yet lies beside its place under a hidden name, `.report.host-4711-1a2b3c4d5e6f.writing`, and what
 * it takes the place of as `.report.….replaced` until that is cleared away. A run that is killed leaves such things behind.
 */
export type State = 'writing' | 'replaced';

/** A file system may allow names of no more than 255 bytes, of which the rest of the hidden name takes up to 80. */
const LONGEST_LABEL = 150;
const LONGEST_HOST = 32;
/** A process on another machine cannot be asked whether it lives; after so many milliseconds nobody is writing any more. */
const GIVEN_UP = 86_400_000;

const HOST = hostname()
  .replace(/[^A-Za-z0-9]/g, '')
  .slice(0, LONGEST_HOST);

function labelOf(target: string): string {
  const name = basename(target);
  return Buffer.byteLength(name) <= LONGEST_LABEL ? name : createHash('sha256').update(name).digest('hex');
}

/** The hidden folder beside a target in which a run keeps what it has done so far, for one that comes after it. */
export function checkpointOf(target: string): string {
  return join(dirname(target), `.${labelOf(target)}.unfinished`);
}

/** A hidden name beside a target that nothing has yet. */
export function neighbourOf(target: string, state: State): string {
  const owner = `${HOST}-${process.pid}-${randomBytes(6).toString('hex')}`;
  return join(dirname(target), `.${labelOf(target)}.${owner}.${state}`);
}

export interface Leftover {
  readonly path: string;
  readonly state: State;
}

/** What runs that have ended left beside a target; nothing of one that is still at work, and nothing where nobody may look. */
export function leftoversBeside(target: string): readonly Leftover[] {
  const folder = dirname(target);
  const start = `.${labelOf(target)}.`;
  try {
    return readdirSync(folder).flatMap((name): readonly Leftover[] => {
      const owner = name.startsWith(start) ? OWNER.exec(name.slice(start.length)) : null;
      const [, host = '', pid = '', state = ''] = owner ?? [];
      const path = join(folder, name);
      if (owner === null || isAtWork(path, host, Number(pid))) return [];
      return [{ path, state: state === 'writing' ? 'writing' : 'replaced' }];
    });
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
    return [];
  }
}

const OWNER = /^([A-Za-z0-9]*)-(\d+)-[0-9a-f]{12}\.(writing|replaced)$/;

function isAtWork(path: string, host: string, pid: number): boolean {
  if (host !== HOST) return Date.now() - lstatSync(path).mtimeMs < GIVEN_UP;
  // Of this run's own nothing is left by the time that it looks.
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return systemCode(error) !== 'ESRCH';
  }
}
