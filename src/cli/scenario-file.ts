import { counted } from '../wording/phrases.js';
import { GREATEST_LENGTH } from '../scenario/document.js';
import { loadScenario } from '../scenario/load.js';
import { Failure } from '../scenario/failure.js';
import type { ScenarioFile, TextFile } from '../studies/study.js';
import type { Console } from './console.js';
import { messageOf, placeOf } from './fault-list.js';
import { readText } from './text-file.js';

/** A character has at most four bytes. */
export const SCENARIO_TEXT = {
  what: 'a scenario file',
  form: 'a scenario is a YAML file',
  most: 4 * GREATEST_LENGTH,
} as const;

/** Reads and checks a scenario; shows every warning, and for a wrong file every fault at once. */
export function openScenario(file: string, console: Console): ScenarioFile {
  return checkScenario(readText(file, SCENARIO_TEXT), console);
}

/** The same of a text that was read already. */
export function checkScenario({ file, text, sha256 }: TextFile, console: Console): ScenarioFile {
  const result = loadScenario(text);
  const faults = result.ok ? result.warnings : result.faults;
  for (const fault of faults) {
    const label = console.toned(fault.severity === 'error' ? 'red' : 'yellow', fault.severity.padEnd(7));
    console.complain(`${file}:${placeOf(fault)}  ${label}  ${messageOf(fault)}`);
  }
  if (!result.ok) {
    const errors = faults.filter((fault) => fault.severity === 'error').length;
    throw new Failure(`${counted(errors, 'error')} in ${file}; nothing was run or written`);
  }
  return {
    ...{ file, text, sha256 },
    loaded: result.scenario,
    warnings: result.warnings.map(messageOf),
  };
}
