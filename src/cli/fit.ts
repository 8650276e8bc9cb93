import { accessSync, constants, realpathSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { shortened } from '../report/text.js';
import { fitFiles, fitText } from '../report/fit/index.js';
import type { LoadedScenario } from '../scenario/load.js';
import { loadScenario } from '../scenario/load.js';
import { shellLine } from '../scenario/shell-line.js';
import type { InputFile } from '../study/about.js';
import { fitLog, type FitOptions } from '../study/fit/fit.js';
import { missingKind, type Written, writeInto } from '../study/fit/into.js';
import type { FitSummary } from '../study/fit/results.js';
import { wholeNumber } from './arguments.js';
import type { Console } from './console.js';
import { EXIT, Failure } from './failure.js';
import { readFitOptions } from './fit-options.js';
import { openLog, openRadii } from './log-file.js';
import { checkOutputFolder, writeOutputFolder } from './output-folder.js';
import { plainName } from './plain-name.js';
import { createProgress, type Progress } from './progress.js';
import { formatFault, openScenario, SCENARIO_TEXT } from './scenario-file.js';
import { beginCommand, type Cli } from './shared.js';
import { studyLine } from './study.js';
import { readText, sha256Of } from './text-file.js';
import { recordedHere } from './version.js';
import { writeWholeFile } from './whole-file.js';

const list = { type: 'string', array: true, nargs: 1, requiresArg: true } as const;

const options = {
  into: { type: 'string', requiresArg: true, describe: 'Scenario into which the hazards are written, comments kept' },
  radii: { type: 'string', requiresArg: true, describe: 'Table of measured radii: tip, path, load, radius, error' },
  tip: { ...list, describe: 'KIND=NAME: what the scenario calls a kind of the log; NAME alone: the kind of all' },
  column: { ...list, describe: 'NAME=HEAD: which column holds tip, kind, images, distance, ended, load …' },
  unit: { ...list, describe: 'COLUMN=UNIT: unit of a column whose head has none' },
  per: { ...list, describe: 'CAUSE=UNIT: count this cause per image, distance, hour or approach' },
  law: { ...list, describe: 'CAUSE=LAW: exponential, weibull, lognormal or gamma in place of the one by AIC' },
  skip: {
    type: 'boolean',
    default: false,
    describe: 'Leave out rows that cannot be used; what that does is said first',
  },
  date: {
    type: 'string',
    requiresArg: true,
    describe: 'Date of the log, such as 2031-05-17 [default: the last in it]',
  },
  bootstrap: {
    type: 'string',
    requiresArg: true,
    default: '99',
    describe: 'Made logs for the goodness of fit; 0: none',
  },
  out: {
    type: 'string',
    requiresArg: true,
    describe: 'Folder for the report [default: reports/<name of the log>-fit]',
  },
  seed: { type: 'string', requiresArg: true, default: '1', describe: 'Seed text of the made logs' },
  json: { type: 'boolean', default: false, describe: 'Print summary.json on stdout in place of the table' },
} as const;

const SAMPLES = { min: 0, max: 9999 };

/** A scenario that hazards are written into. */
interface Target {
  readonly file: string;
  readonly text: string;
  readonly sha256: string;
  readonly loaded: LoadedScenario;
}

type FilledScenario = Extract<Written, { ok: true }>;

function openTarget(file: string | undefined, console: Console): Target | null {
  if (file === undefined) return null;
  const { loaded, sha256 } = openScenario(file, console);
  if (isReadOnly(file))
    throw new Failure(`${file} is read-only; make it writable, or paste what \`hazards.yaml\` has for it`);
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
function showing<Result>(bar: Progress, work: (onProgress: NonNullable<FitOptions['onProgress']>) => Result): Result {
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

/** The scenario with the hazards in it; a failure, with nothing written, where that would be no sound scenario. */
function filled({ file, text }: Target, summary: FitSummary, console: Console): FilledScenario {
  const written = writeInto(text, summary);
  if (!written.ok) throw new Failure(written.messages.map((message) => `${file}: ${message}`));
  const loaded = loadScenario(written.text);
  if (loaded.ok) return written;
  const errors = loaded.faults.filter(({ severity }) => severity === 'error');
  for (const fault of errors) console.complain(formatFault(`${file} (with the hazards)`, fault, console));
  throw new Failure(
    `with the fitted hazards ${file} would be no sound scenario any more; nothing was written`,
    EXIT.failed,
  );
}

/**
 * What is read beside the log, for the record. The scenario stands there as it is with the hazards in it: written into
 * once more it stays so, and what it was before is gone.
 */
function inputsOf(
  radii: { readonly file: string; readonly sha256: string } | null,
  target: Target | null,
  written: FilledScenario | null,
): readonly InputFile[] {
  return [
    ...(target === null || written === null
      ? []
      : [{ option: 'into', file: basename(target.file), sha256: sha256Of(written.text) }]),
    ...(radii === null ? [] : [{ option: 'radii', file: radii.file, sha256: radii.sha256 }]),
  ];
}

export function addFit(cli: Cli): Cli {
  return cli.command(
    'fit <file>',
    'Fit the hazards of tips to your log of their lives, and write them into a scenario',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The log (CSV), a row a tip' })
        .options(options),
    async (given) => {
      const console = beginCommand(given, options);
      const samples = wholeNumber('bootstrap', given.bootstrap, SAMPLES);
      const chosen = readFitOptions(given);
      const folder = given.out ?? join('reports', `${plainName(given.file)}-fit`);
      const target = openTarget(given.into, console);
      const { log, sha256 } = openLog(given.file, chosen.log, given.skip, console);
      const kinds = target?.loaded.base.tips;
      if (target !== null) {
        const missing = [...new Set(log.rows.map(({ kind }) => kind))].flatMap((kind) =>
          missingKind(target.text, kind),
        );
        if (missing.length > 0) throw new Failure(missing.map((message) => `${target.file}: ${message}`));
      }
      checkOutputFolder(folder);
      const radii = given.radii === undefined ? null : openRadii(given.radii, log, kinds ?? {}, console);

      const progress = createProgress(console);
      const line = studyLine('fit', given.file, {
        into: given.into === undefined ? undefined : basename(given.into),
        radii: given.radii === undefined ? undefined : basename(given.radii),
        tip: given.tip,
        column: given.column,
        unit: given.unit,
        per: given.per,
        law: given.law,
        date: given.date,
        bootstrap: given.bootstrap === '99' ? undefined : given.bootstrap,
        seed: given.seed === '1' ? undefined : given.seed,
      });
      const command = given.skip ? `${line} --skip` : line;
      const fitted = showing(progress, (onProgress) =>
        fitLog(log, {
          file: basename(given.file),
          sha256,
          ...recordedHere(),
          command,
          seed: given.seed,
          date: given.date ?? null,
          samples,
          laws: chosen.laws,
          units: chosen.units,
          unitBefore: (kind, cause) => kinds?.[kind]?.hazards.find((hazard) => hazard.cause === cause)?.per ?? null,
          blunting: radii?.fits ?? [],
          onProgress,
        }),
      );
      const written = target === null ? null : filled(target, fitted, console);
      const summary = {
        ...fitted,
        inputs: [...fitted.inputs, ...inputsOf(radii, target, written)],
        warnings: [...fitted.warnings, ...(radii?.warnings ?? [])],
      };
      const files = await fitFiles(summary);
      if (target !== null) checkUnchanged(target);
      writeOutputFolder(folder, files);
      if (target !== null && written !== null) writeWholeFile(realpathSync(target.file), written.text);
      const shown = given.json
        ? (files.get('summary.json') ?? '')
        : fitText(summary, files.get('hazards.yaml') ?? '', console.styles, console.columns);
      console.result(shown.trimEnd());
      console.note('', `wrote ${files.size} files; open ${join(folder, 'report.html')}`);
      if (target === null) return;
      for (const { line: at, comment } of written?.doubtful ?? [])
        console.note(
          `${target.file}:${at}: the comment “${shortened(comment, 60)}” stands beside a value that was replaced; it may no longer be true`,
        );
      console.note(`wrote the hazards into ${target.file}; next:  ${shellLine('compare', target.file)}`);
    },
  );
}
