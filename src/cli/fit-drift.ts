import { basename, join } from 'node:path';
import { driftFitFiles, driftFitText } from '../report/fit/drift/index.js';
import { fitDriftTable } from '../study/fit/drift/fit-drift.js';
import { writeDriftInto } from '../study/fit/drift/into-drift.js';
import { workflowDrifts } from '../study/fit/drift/drift-data.js';
import type { Console } from './console.js';
import { Failure } from './failure.js';
import { type Given, readDriftOptions } from './fit-options.js';
import { closeFit, filled, intoInput, openTarget, showing } from './fit-target.js';
import { openDrift } from './log-file.js';
import { checkOutputFolder } from './output-folder.js';
import { plainName } from './plain-name.js';
import { createProgress } from './progress.js';
import { studyLine } from './study.js';
import { recordedHere } from './version.js';

/** What `fit --drift` is given beside its options on the table. */
interface GivenDrift extends Given {
  readonly file: string;
  readonly into?: string | undefined;
  readonly out?: string | undefined;
  readonly skip: boolean;
  readonly json: boolean;
}

/** Fits drift to a table of readings. */
export async function fitDriftFile(given: GivenDrift, console: Console): Promise<void> {
  const chosen = readDriftOptions(given);
  const folder = given.out ?? join('reports', `${plainName(given.file)}-fit`);
  const target = openTarget(given.into, 'drift.yaml', console);
  const { log, sha256 } = openDrift(given.file, chosen.table, given.skip, console);
  checkOutputFolder(folder);
  const line = studyLine('fit', given.file, {
    into: given.into === undefined ? undefined : basename(given.into),
    column: given.column,
    unit: given.unit,
    settling: given.settling,
    workflow: given.workflow,
    date: given.date,
  });
  const fitted = showing(createProgress(console), (onProgress) =>
    fitDriftTable(log, {
      file: basename(given.file),
      sha256,
      ...recordedHere(),
      command: `${line} --drift${given.skip ? ' --skip' : ''}`,
      date: given.date ?? null,
      settling: chosen.settling,
      workflows: chosen.workflows,
      onProgress,
    }),
  );
  if (target !== null && workflowDrifts(fitted).length === 0)
    throw new Failure([
      `nothing could be fitted that ${target.file} could hold; nothing was written, neither report nor scenario`,
      'run this again without --into for a report that says why',
    ]);
  const written = target === null ? null : filled(target, writeDriftInto(target.text, fitted), 'drift', console);
  const summary = { ...fitted, inputs: [...fitted.inputs, ...intoInput(target, written)] };
  const files = await driftFitFiles(summary);
  const text = driftFitText(summary, files.get('drift.yaml') ?? '', console.styles, console.columns);
  closeFit({ folder, files, text, isJson: given.json, target, written, what: 'drift' }, console);
  if (
    target?.loaded.strategies.every(({ settings }) =>
      settings.plan.passes.every(({ driftTolerance }) => driftTolerance === undefined),
    )
  )
    console.note(
      `no pass of ${target.file} has a \`driftTolerance\`: drift costs its images nothing, and only waits \`{until: …}\` follow it`,
    );
}
