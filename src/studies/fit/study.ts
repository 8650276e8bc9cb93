import type { InputFile } from '../../analysis/about.js';
import { eitherReport } from '../../report/report.js';
import { Failure } from '../../scenario/failure.js';
import type { ValuesOf } from '../options.js';
import { type Ground, type ScenarioFile, study } from '../study.js';
import { workflowDrifts } from './drift/drift-data.js';
import { fitDriftTable } from './drift/fit-drift.js';
import { writeDriftInto } from './drift/into-drift.js';
import { readDrift } from './drift/read-drift.js';
import { driftFitReport } from './drift/report.js';
import { type DriftFitSummary, WORKFLOWS } from './drift/results.js';
import { fitLog } from './fit.js';
import { missingKind, writeInto } from './into.js';
import { mapLog } from './map.js';
import { mappingBefore, openMapping, openRadii, openSheet, openText, readTable } from './open-table.js';
import { FIT_OPTIONS, logOptions, refuseStrayOptions } from './options.js';
import { hazardPrior } from './prior.js';
import { knownHeads, readLog } from './read-log.js';
import { fitReport } from './report.js';
import { allCauses } from './report-words.js';
import { FIT_FORMAT, type FitSummary } from './results.js';
import { fill } from './target.js';

type Values = ValuesOf<typeof FIT_OPTIONS>;

export const fitStudy = study({
  question: 'How long do our tips last, and how long must we wait for drift?',
  does: 'Fit the hazards of tips to your log of their lifetimes, or drift to readings of it, and write them into a scenario',
  file: 'The log (CSV or .xlsx), a row a tip; with --drift a row a reading',
  isInPlace: true,
  options: FIT_OPTIONS,
  instead: async (ground, { map, drift, sheet, ...values }) => {
    if (!map || drift) return false;
    const before = mappingBefore(ground);
    const isKnown = knownHeads(logOptions(values, before).columns);
    await mapLog(ground, await openSheet(ground, sheet ?? before.sheet, isKnown), before);
    return true;
  },
  begin: async (ground, values, typed): Promise<() => FitSummary | DriftFitSummary> => {
    refuseStrayOptions(values.drift, typed);
    return values.drift ? fitDrift(ground, values) : fitHazards(ground, values);
  },
  report: eitherReport((summary): summary is FitSummary => summary.format === FIT_FORMAT, fitReport, driftFitReport),
});

async function fitHazards(ground: Ground, values: Values): Promise<() => FitSummary> {
  const mapped = openMapping(ground, values.mapping);
  const meant = logOptions(values, mapped?.mapping ?? null);
  const sheet = values.sheet ?? mapped?.mapping.sheet ?? null;
  const table = await openSheet(ground, sheet, knownHeads(meant.columns));
  if (mapped !== null) ground.note(`read as ${mapped.file} says`);
  const target = targetOf(ground, values, 'hazards.yaml');
  // Tips whose end is not understood mostly failed, and without them all lives come out too long.
  const skipping = { skips: values.skip, bias: 'may bias every life' };
  const log = readTable(ground, table, (source) => readLog(source, meant), skipping);
  if (target !== null) refuseUnknownKinds(target, [...new Set(log.rows.map(({ kind }) => kind))]);
  const kinds = target?.loaded.base.tips;
  const radii = values.radii === undefined ? null : openRadii(ground, values.radii, log, kinds ?? {});
  const { seed, bootstrap: samples, date = null, distribution: distributions, per: units } = values;
  const making = ground.making(table, mapped === null ? {} : { mapping: mapped.file });
  return () => {
    const fitted = fitLog(log, {
      ...{ ...making, seed, date, samples, distributions, units },
      unitBefore: (kind, cause) => kinds?.[kind]?.hazards.find((hazard) => hazard.cause === cause)?.per ?? null,
      priorOf: (kind, cause) => (target === null ? null : hazardPrior(target.loaded, kind, cause)),
      blunting: radii?.fits ?? [],
    });
    const isEmpty = fitted.blunting.length === 0 && allCauses(fitted).every(({ hazard }) => hazard === null);
    if (target !== null && isEmpty)
      ground.note(`${target.file} stays as it is: the log gives nothing to write into it`);
    const filled = target === null || isEmpty ? [] : [fill(ground, target, writeInto(target.text, fitted), 'hazards')];
    return {
      ...fitted,
      inputs: [...fitted.inputs, ...filled, ...inputOf('mapping', mapped), ...inputOf('radii', radii)],
      warnings: [...fitted.warnings, ...(radii?.warnings ?? [])],
    };
  };
}

function inputOf(option: string, read: Omit<InputFile, 'option'> | null): readonly InputFile[] {
  return read === null ? [] : [{ option, file: read.file, sha256: read.sha256 }];
}

function targetOf(ground: Ground, { into }: Values, block: string): ScenarioFile | null {
  return into === undefined ? null : ground.scenarioToFill(into, `paste what \`${block}\` has for it`);
}

function refuseUnknownKinds({ file, text }: ScenarioFile, kinds: readonly string[]): void {
  const missing = kinds.flatMap((kind) => missingKind(text, kind));
  if (missing.length > 0) throw new Failure(missing.map((message) => `${file}: ${message}`));
}

function fitDrift(ground: Ground, values: Values): () => DriftFitSummary {
  const columns = { columns: values.column, units: values.unit };
  const target = targetOf(ground, values, 'drift.yaml');
  const table = openText(ground);
  const skipping = { skips: values.skip, bias: 'may bias the fit' };
  const log = readTable(ground, table, (source) => readDrift(source, columns), skipping);
  const { settling = USUAL_SETTLING, workflow, date = null } = values;
  const workflows = WORKFLOWS.filter((name) => name === (workflow ?? name));
  return () => {
    const fitted = fitDriftTable(log, { ...ground.making(table), date, settling, workflows });
    if (target === null) return fitted;
    if (workflowDrifts(fitted).length === 0)
      throw new Failure([
        `nothing could be fitted that ${target.file} could hold; nothing was written, neither report nor scenario`,
        'run this again without --into for a report that says why',
      ]);
    const filled = fill(ground, target, writeDriftInto(target.text, fitted), 'drift', adviceFor(target));
    return { ...fitted, inputs: [...fitted.inputs, filled] };
  };
}

/** Seconds. */
const USUAL_SETTLING = 20 * 60;

function adviceFor({ file, loaded }: ScenarioFile): readonly string[] {
  const passes = loaded.strategies.flatMap(({ settings }) => settings.plan.passes);
  if (passes.some(({ driftTolerance }) => driftTolerance !== undefined)) return [];
  return [
    `no pass of ${file} has a \`driftTolerance\`: drift costs its images nothing, and only waits \`{until: …}\` follow it`,
  ];
}
