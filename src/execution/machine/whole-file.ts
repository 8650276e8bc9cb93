import {
  chmodSync,
  closeSync,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, resolve } from 'node:path';
import { EXIT, Failure, systemCode, systemReason } from '../../scenario/failure.js';
import { leftoversBeside, neighbourOf } from './neighbours.js';

/** A text, or parts of a file one after the other where it is too long to be held as a whole. */
export type FileContent = string | Iterable<string | Uint8Array>;

/** Writes a file that is not there yet, and sees that it is on the disk: a name must not come to stand for half of it. */
export function writeNewFile(file: string, content: FileContent): void {
  const descriptor = openSync(file, 'wx');
  try {
    for (const part of typeof content === 'string' ? [content] : content)
      writeWhole(descriptor, typeof part === 'string' ? Buffer.from(part) : part);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** The system may take less than it is given. */
function writeWhole(descriptor: number, bytes: Uint8Array): void {
  let done = 0;
  while (done < bytes.length) done += writeSync(descriptor, bytes, done);
}

/** Sees that the names in a folder are on the disk; some systems do not let a folder be opened, and see to it themselves. */
export function keepNames(folder: string): void {
  try {
    const descriptor = openSync(folder, 'r');
    try {
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
  }
}

/**
 * Writes one file so that it is complete or as it was before, whatever happens meanwhile. Whoever may read an earlier one
 * may read the new one; where the name is a link, what it leads to is replaced.
 */
export function writeWholeFile(file: string, content: FileContent): void {
  try {
    const before = statSync(file, { throwIfNoEntry: false });
    if (before !== undefined && !before.isFile())
      throw new Failure(`${file} is no ordinary file, so nothing was written; name another file`);
    const target = before === undefined ? resolve(file) : realpathSync(file);
    for (const { path, state } of leftoversBeside(target))
      if (state === 'writing') rmSync(path, { recursive: true, force: true });
    const fresh = neighbourOf(target, 'writing');
    try {
      writeNewFile(fresh, content);
      if (before !== undefined) chmodSync(fresh, before.mode & 0o7777);
      renameSync(fresh, target);
      keepNames(dirname(target));
    } finally {
      rmSync(fresh, { force: true });
    }
  } catch (error) {
    throw new Failure(`${file} cannot be written: ${systemReason(error)}`, EXIT.failed);
  }
}
