import { createHash } from 'node:crypto';
import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import { GREATEST_LENGTH } from '../scenario/document.js';
import { type Fault, type LoadedScenario, loadScenario } from '../scenario/load.js';
import { Failure, systemReason } from './failure.js';
import type { Console } from './console.js';

/** Bytes that are read at all; a character has at most four. */
const GREATEST_SIZE = 4 * GREATEST_LENGTH;

export interface ScenarioFile {
  readonly loaded: LoadedScenario;
  /** Of the bytes of the file, in hexadecimal. */
  readonly sha256: string;
  /** What the reader of the file was warned of. */
  readonly warnings: readonly string[];
}

function readBytes(file: string): Buffer {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(file, 'r');
    const stat = fstatSync(descriptor);
    if (stat.isDirectory()) throw new Failure(`${file}: this is a folder; a scenario file is wanted`);
    if (!stat.isFile()) throw new Failure(`${file}: this is no ordinary file; a scenario file is wanted`);
    if (stat.size > GREATEST_SIZE) {
      const megabytes = (stat.size / 1e6).toFixed(1);
      throw new Failure(`${file}: the file has ${megabytes} MB; a scenario file has at most ${GREATEST_SIZE / 1e6} MB`);
    }
    return readFileSync(descriptor);
  } catch (error) {
    if (error instanceof Failure) throw error;
    throw new Failure(`${file}: cannot be read: ${systemReason(error)}`);
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

function decode(file: string, bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Failure(`${file}: this is not text in UTF-8; a scenario is a YAML file`);
  }
}

/** One fault as editors and terminals link it: `file:line:column  error  path: message`. */
export function formatFault(file: string, fault: Fault, console: Console): string {
  const severity = console.toned(fault.severity === 'error' ? 'red' : 'yellow', fault.severity.padEnd(7));
  const path = fault.path === '' ? '' : `${fault.path}: `;
  const [first, ...more] = fault.message.split('\n');
  return [
    `${file}:${fault.line}:${fault.column}  ${severity}  ${path}${first}`,
    ...more.map((line) => `    ${line}`),
  ].join('\n');
}

function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? '' : 's'}`;
}

/** Reads and checks a scenario; shows every warning, and for a wrong file every fault at once. */
export function openScenario(file: string, console: Console): ScenarioFile {
  const bytes = readBytes(file);
  const result = loadScenario(decode(file, bytes));
  const faults = result.ok ? result.warnings : result.faults;
  for (const fault of faults) console.complain(formatFault(file, fault, console));
  if (!result.ok) {
    const errors = faults.filter((fault) => fault.severity === 'error').length;
    throw new Failure(`${count(errors, 'error')} in ${file}; nothing was run or written`);
  }
  return {
    loaded: result.scenario,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    warnings: result.warnings.map(({ path, message }) => (path === '' ? message : `${path}: ${message}`)),
  };
}
