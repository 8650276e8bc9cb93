import { accessSync, constants, existsSync, realpathSync, statSync } from 'node:fs';
import { basename } from 'node:path';

import { EXIT, Failure } from '../scenario/failure.js';
import type { TextFault } from '../scenario/places.js';
import { recordedLine, type Typed } from '../studies/options.js';
import type { Ground, Rewrite, ScenarioFile, Study } from '../studies/study.js';
import { asking, canAsk } from './asking.js';
import type { Console } from './console.js';
import { faultLines, messageOf, placeOf } from './fault-list.js';
import { createProgress, type Progress } from './progress.js';
import { openScenario, SCENARIO_TEXT } from './scenario-file.js';
import { readText } from './text-file.js';
import { recordedHere } from './version.js';
import { cellName, readTable } from './workbook.js';
import { writeWholeFile } from '../execution/machine/whole-file.js';

/** The ground of a study with what the command does around it. */
export interface StudyGround extends Ground {
  readonly progress: Progress;
  /** The scenario that is studied; null before it is read, and for a study of something else. */
  readonly studied: () => ScenarioFile | null;
  /** @throws Failure where a file that is to be written into was changed since it was read */
  readonly refuseChanged: () => void;
  /** Writes into the user's files what the study has for them. */
  readonly writeOthers: () => void;
  /** What is said of that afterwards. */
  readonly notes: () => readonly string[];
}

/** @param open reads a scenario, where that is read from elsewhere than the disk */
export function groundOf(
  name: string,
  study: Pick<Study, 'options'>,
  { file, typed, console }: { readonly file: string; readonly typed: Typed; readonly console: Console },
  open: Ground['scenario'] = (other = file) => openScenario(other, console),
): StudyGround {
  const progress = createProgress(console);
  const rewrites: Rewrite[] = [];
  let studied: ScenarioFile | null = null;
  return {
    file,
    scenario: (other = file) => {
      const read = open(other);
      if (other === file) studied = read;
      return read;
    },
    studied: () => studied,
    scenarioToFill: (target, instead) => {
      const read = openScenario(target, console);
      if (isReadOnly(target)) throw new Failure(`${target} is read-only; make it writable, or ${instead}`);
      return read;
    },
    text: readText,
    table: readTable,
    isThere: existsSync,
    show: ({ file: path, sheet = null }, faults, as) => {
      const tone = console.toned(as === 'error' ? 'red' : 'yellow', as);
      const place = (fault: TextFault) => (sheet === null ? placeOf(fault) : cellName(sheet, fault));
      for (const line of faultLines(faults, (fault) => `${path}:${place(fault)}  ${tone}  ${messageOf(fault)}`))
        console.complain(line);
    },
    result: (text) => {
      console.result(text.trimEnd());
    },
    asking: canAsk() ? asking : null,
    write: writeWholeFile,
    note: (...lines) => {
      console.note(...lines);
    },
    rewrite: (rewrite) => {
      rewrites.push(rewrite);
    },
    making: ({ sha256, warnings }, resolved = {}) => {
      const said = Object.fromEntries(Object.entries(resolved).map(([option, value]) => [option, [value]]));
      const seed = typed['seed'];
      return {
        ...(typeof seed === 'object' && seed.length > 0 ? { seed: seed[seed.length - 1] } : {}),
        ...{ file: basename(file), sha256, ...(warnings === undefined ? {} : { warnings }) },
        ...recordedHere(),
        command: recordedLine(name, file, study.options, { ...typed, ...said }),
        onProgress: ({ phase, done, of }) => {
          progress.update(phase, done, of);
        },
      };
    },
    progress,
    refuseChanged: () => {
      for (const { file: other, sha256 } of rewrites)
        if (readText(other, SCENARIO_TEXT).sha256 !== sha256)
          throw new Failure(`${other} was changed meanwhile; nothing was written: run this again`, EXIT.failed);
    },
    writeOthers: () => {
      for (const { file: other, text } of rewrites) writeWholeFile(realpathSync(other), text);
    },
    notes: () => rewrites.flatMap(({ notes }) => notes),
  };
}

/** Writing goes by a new file in its place, which the system would allow for a file that is guarded against writing, too. */
function isReadOnly(file: string): boolean {
  if ((statSync(file).mode & 0o222) === 0) return true;
  try {
    accessSync(file, constants.W_OK);
    return false;
  } catch {
    return true;
  }
}
