import { basename, join } from 'node:path';
import { fitFiles, fitText } from '../report/fit/index.js';
import { fitLog } from '../study/fit/fit.js';
import { missingKind, writeInto } from '../study/fit/into.js';
import { wholeNumber } from './arguments.js';
import { Failure } from './failure.js';
import { fitDriftFile } from './fit-drift.js';
import { refuseStrayOptions, readFitOptions } from './fit-options.js';
import { closeFit, filled, intoInput, openTarget, showing } from './fit-target.js';
import { openLog, openRadii } from './log-file.js';
import { checkOutputFolder } from './output-folder.js';
import { plainName } from './plain-name.js';
import { createProgress } from './progress.js';
import { beginCommand, type Cli } from './shared.js';
import { studyLine } from './study.js';
import { recordedHere } from './version.js';

const list = { type: 'string', array: true, nargs: 1, requiresArg: true } as const;

const options = {
  drift: {
    type: 'boolean',
    default: false,
    describe: 'The file is a table of drift: disturbance, kind, time since, displacement or rate, error',
  },
  settling: {
    type: 'string',
    requiresArg: true,
    describe: 'Of drift: time after which it counts as settled [default: 20 min]',
  },
  workflow: {
    type: 'string',
    requiresArg: true,
    choices: ['swap', 'hop'],
    describe: 'Of drift: the workflow for which it holds [default: both]',
  },
  into: {
    type: 'string',
    requiresArg: true,
    describe: 'Scenario into which what was fitted is written, comments kept',
  },
  radii: { type: 'string', requiresArg: true, describe: 'Table of measured radii: tip, path, load, radius, error' },
  tip: { ...list, describe: 'KIND=NAME: what the scenario calls a kind of the log; NAME alone: the kind of all' },
  column: {
    ...list,
    describe: 'NAME=HEAD: which column holds tip, kind, images, distance, ended, load …; disturbance, time, rate …',
  },
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
    describe: 'Made logs for the goodness of fit; 0: none [default: 99]',
  },
  out: {
    type: 'string',
    requiresArg: true,
    describe: 'Folder for the report [default: reports/<name of the log>-fit]',
  },
  seed: { type: 'string', requiresArg: true, describe: 'Seed text of the made logs [default: 1]' },
  json: { type: 'boolean', default: false, describe: 'Print summary.json on stdout in place of the table' },
} as const;

const SAMPLES = { min: 0, max: 9999 };

export function addFit(cli: Cli): Cli {
  return cli.command(
    'fit <file>',
    'Fit the hazards of tips to your log of their lives, or drift to readings of it, and write them into a scenario',
    (command) =>
      command
        .positional('file', {
          type: 'string',
          demandOption: true,
          describe: 'The log (CSV), a row a tip; with --drift a row a reading',
        })
        .options(options),
    async (given) => {
      const console = beginCommand(given, options);
      refuseStrayOptions(given);
      if (given.drift) {
        await fitDriftFile(given, console);
        return;
      }
      const { bootstrap = '99', seed = '1' } = given;
      const samples = wholeNumber('bootstrap', bootstrap, SAMPLES);
      const chosen = readFitOptions(given);
      const folder = given.out ?? join('reports', `${plainName(given.file)}-fit`);
      const target = openTarget(given.into, 'hazards.yaml', console);
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
        bootstrap: bootstrap === '99' ? undefined : bootstrap,
        seed: seed === '1' ? undefined : seed,
      });
      const command = given.skip ? `${line} --skip` : line;
      const fitted = showing(progress, (onProgress) =>
        fitLog(log, {
          file: basename(given.file),
          sha256,
          ...recordedHere(),
          command,
          seed,
          date: given.date ?? null,
          samples,
          laws: chosen.laws,
          units: chosen.units,
          unitBefore: (kind, cause) => kinds?.[kind]?.hazards.find((hazard) => hazard.cause === cause)?.per ?? null,
          blunting: radii?.fits ?? [],
          onProgress,
        }),
      );
      const written = target === null ? null : filled(target, writeInto(target.text, fitted), 'hazards', console);
      const summary = {
        ...fitted,
        inputs: [
          ...fitted.inputs,
          ...intoInput(target, written),
          ...(radii === null ? [] : [{ option: 'radii', file: radii.file, sha256: radii.sha256 }]),
        ],
        warnings: [...fitted.warnings, ...(radii?.warnings ?? [])],
      };
      const files = await fitFiles(summary);
      const text = fitText(summary, files.get('hazards.yaml') ?? '', console.styles, console.columns);
      closeFit({ folder, files, text, isJson: given.json, target, written, what: 'hazards' }, console);
    },
  );
}
