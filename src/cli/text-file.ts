import { createHash } from 'node:crypto';
import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs';
import { Failure, systemReason } from './failure.js';

/** What a file is to be, for the messages about one that is something else. */
export interface Wanted {
  /** Such as `a scenario file`. */
  readonly what: string;
  /** Such as `a scenario is a YAML file`. */
  readonly form: string;
  /** Bytes that are read at all. */
  readonly most: number;
}

export interface TextFile {
  readonly text: string;
  /** Of the bytes of the file, in hexadecimal. */
  readonly sha256: string;
}

/** Reads a whole text in UTF-8; anything else is a failure that says what is wanted. */
export function readText(file: string, wanted: Wanted): TextFile {
  const bytes = readBytes(file, wanted);
  return { text: decode(file, bytes, wanted), sha256: sha256Of(bytes) };
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

function decode(file: string, bytes: Buffer, { form }: Wanted): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Failure(`${file}: this is not text in UTF-8; ${form}`);
  }
}
