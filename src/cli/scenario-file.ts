import { GREATEST_LENGTH } from '../scenario/document.js';
import { type Fault, type LoadedScenario, loadScenario } from '../scenario/load.js';
import { Failure } from './failure.js';
import type { Console } from './console.js';
import { readText, type TextFile } from './text-file.js';

/** A character has at most four bytes. */
export const SCENARIO_TEXT = {
  what: 'a scenario file',
  form: 'a scenario is a YAML file',
  most: 4 * GREATEST_LENGTH,
} as const;

export interface ScenarioFile {
  readonly text: string;
  readonly loaded: LoadedScenario;
  /** Of the bytes of the file, in hexadecimal. */
  readonly sha256: string;
  /** What the reader of the file was warned of. */
  readonly warnings: readonly string[];
}

/** One fault as editors and terminals link it: `file:line:column  error  path: message`. */
export function formatFault(file: string, fault: Fault, console: Console): string {
  const severity = console.toned(fault.severity === 'error' ? 'red' : 'yellow', fault.severity.padEnd(7));
  const path = fault.path === '' ? '' : `${fault.path}: `;
  return `${file}:${fault.line}:${fault.column}  ${severity}  ${path}${fault.message}`;
}

function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? '' : 's'}`;
}

/** Reads and checks a scenario; shows every warning, and for a wrong file every fault at once. */
export function openScenario(file: string, console: Console): ScenarioFile {
  return checkScenario(file, readText(file, SCENARIO_TEXT), console);
}

/** The same of a text that was read already; `file` is where it comes from, for the messages. */
export function checkScenario(file: string, { text, sha256 }: TextFile, console: Console): ScenarioFile {
  const result = loadScenario(text);
  const faults = result.ok ? result.warnings : result.faults;
  for (const fault of faults) console.complain(formatFault(file, fault, console));
  if (!result.ok) {
    const errors = faults.filter((fault) => fault.severity === 'error').length;
    throw new Failure(`${count(errors, 'error')} in ${file}; nothing was run or written`);
  }
  return {
    text,
    loaded: result.scenario,
    sha256,
    warnings: result.warnings.map(({ path, message }) => (path === '' ? message : `${path}: ${message}`)),
  };
}
