import { accessSync, constants, realpathSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { shortened } from '../report/text.js';
import type { LoadedScenario } from '../scenario/load.js';
import { loadScenario } from '../scenario/load.js';
import { shellLine } from '../scenario/shell-line.js';
import type { InputFile } from '../study/about.js';
import type { Written } from '../study/fit/edit.js';
import type { FitOptions } from '../study/fit/fit.js';
import type { Console } from './console.js';
import { EXIT, Failure } from './failure.js';
import { writeOutputFolder } from './output-folder.js';
import type { Progress } from './progress.js';
import { formatFault, openScenario, SCENARIO_TEXT } from './scenario-file.js';
import { readText, sha256Of } from './text-file.js';
import { writeWholeFile } from './whole-file.js';

/** A scenario that what was fitted is written into. */
export interface Target {
  readonly file: string;
  readonly text: string;
  readonly sha256: string;
  readonly loaded: LoadedScenario;
}

export type FilledScenario = Extract<Written, { ok: true }>;

/** @param block the file that has the same to paste */
export function openTarget(file: string | undefined, block: string, console: Console): Target | null {
  if (file === undefined) return null;
  const { loaded, sha256 } = openScenario(file, console);
  if (isReadOnly(file))
    throw new Failure(`${file} is read-only; make it writable, or paste what \`${block}\` has for it`);
  const target = { file, ...readText(file, SCENARIO_TEXT), loaded };
  checkUnchanged({ file, sha256 });
  return target;
}

/** Somebody may write to the scenario while the log is fitted; then nothing of theirs is lost. */
function checkUnchanged({ file, sha256 }: Pick<Target, 'file' | 'sha256'>): void {
  if (readText(file, SCENARIO_TEXT).sha256 !== sha256)
    throw new Failure(`${file} was changed meanwhile; nothing was written: run this again`, EXIT.failed);
}

/** Does work that tells how far it is, and takes the bar away, whatever became of it. */
export function showing<Result>(
  bar: Progress,
  work: (onProgress: NonNullable<FitOptions['onProgress']>) => Result,
): Result {
  try {
    return work(({ phase, done, of }) => {
      bar.update(phase, done, of);
    });
  } finally {
    bar.stop();
  }
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

/**
 * The scenario with what was fitted in it; a failure, with nothing written, where that would be no sound scenario.
 * @param what was fitted, such as `hazards`
 */
export function filled({ file }: Target, written: Written, what: string, console: Console): FilledScenario {
  if (!written.ok) throw new Failure(written.messages.map((message) => `${file}: ${message}`));
  const loaded = loadScenario(written.text);
  if (loaded.ok) return written;
  const errors = loaded.faults.filter(({ severity }) => severity === 'error');
  for (const fault of errors) console.complain(formatFault(`${file} (with the ${what})`, fault, console));
  throw new Failure(
    `with the fitted ${what} ${file} would be no sound scenario any more; nothing was written`,
    EXIT.failed,
  );
}

/**
 * The scenario as a file that was read. It is on record as it is with what was fitted in it: written into once more it stays
 * so, and what it was before is gone.
 */
export function intoInput(target: Target | null, written: FilledScenario | null): readonly InputFile[] {
  return target === null || written === null
    ? []
    : [{ option: 'into', file: basename(target.file), sha256: sha256Of(written.text) }];
}

/** Writes the report and the scenario, and shows what came out. */
export function closeFit(
  {
    folder,
    files,
    text,
    isJson,
    target,
    written,
    what,
  }: {
    readonly folder: string;
    readonly files: ReadonlyMap<string, string>;
    /** For the terminal. */
    readonly text: string;
    readonly isJson: boolean;
    readonly target: Target | null;
    readonly written: FilledScenario | null;
    readonly what: string;
  },
  console: Console,
): void {
  if (target !== null) checkUnchanged(target);
  try {
    writeOutputFolder(folder, files);
    if (target !== null && written !== null) writeWholeFile(realpathSync(target.file), written.text);
  } finally {
    console.result((isJson ? (files.get('summary.json') ?? '') : text).trimEnd());
  }
  console.note('', `wrote ${files.size} files; open ${join(folder, 'report.html')}`);
  if (target === null) return;
  for (const { line: at, comment } of written?.doubtful ?? [])
    console.note(
      `${target.file}:${at}: the comment “${shortened(comment, 60)}” stands beside a value that was replaced; it may no longer be true`,
    );
  console.note(`wrote the ${what} into ${target.file}; next:  ${shellLine('compare', target.file)}`);
}
