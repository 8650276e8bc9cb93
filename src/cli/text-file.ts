import { createHash } from 'node:crypto';
import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs';
import { Failure, systemReason } from '../scenario/failure.js';
import type { TextFile, Wanted } from '../studies/study.js';

/** Reads a whole text in UTF-8; anything else is a failure that says what is wanted. */
export function readText(file: string, wanted: Wanted): TextFile {
  const bytes = readBytes(file, wanted);
  return { file, text: decode(file, bytes, wanted), sha256: sha256Of(bytes) };
}

/** Of bytes, or of a text as UTF-8; in hexadecimal. */
export function sha256Of(content: Buffer | string): string {
  return createHash('sha256').update(content).digest('hex');
}

/** Reads a whole ordinary file. */
export function readBytes(file: string, { what, most }: Wanted): Buffer {
  let descriptor: number | undefined;
  try {
    // A pipe that nobody writes to is opened without waiting, to be told that it is no file.
    descriptor = openSync(file, constants.O_RDONLY | constants.O_NONBLOCK);
    const stat = fstatSync(descriptor);
    if (stat.isDirectory()) throw new Failure(`${file}: this is a folder; ${what} is wanted`);
    if (!stat.isFile()) throw new Failure(`${file}: this is no ordinary file; ${what} is wanted`);
    if (stat.size > most) {
      const megabytes = (stat.size / 1e6).toFixed(1);
      throw new Failure(`${file}: the file has ${megabytes} MB; ${what} has at most ${most / 1e6} MB`);
    }
    return readFileSync(descriptor);
  } catch (error) {
    if (error instanceof Failure) throw error;
    throw new Failure(`${file}: cannot be read: ${systemReason(error)}`);
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

/** Bytes as text in UTF-8; anything else is a failure. */
export function decode(file: string, bytes: Buffer, { form }: Pick<Wanted, 'form'>): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Failure(`${file}: this is not text in UTF-8; ${form}`);
  }
}
