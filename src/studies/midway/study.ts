import { basename } from 'node:path';
import { GREATEST_LOG } from '../../analysis/sheet.js';
import { type CampaignModel, compileModel } from '../../campaign/model.js';
import { csv } from '../../report/csv.js';
import { Failure } from '../../scenario/failure.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { counted } from '../../wording/phrases.js';
import { aside, file, flag, text } from '../options.js';
import { exactly, SEED, strategyNamed } from '../shared-options.js';
import { type Ground, study } from '../study.js';
import { exampleAt } from './made-state.js';
import { midwayWork } from './midway.js';
import { readMoment } from './moment.js';
import { readState } from './read-state.js';
import { midwayReport } from './report.js';
import { isScanLog, stateFromScans } from './scan-log.js';
import { stateRows } from './state-rows.js';
import { templateRows } from './template.js';

const STATE_TEXT = {
  what: 'a table of how the campaign stands',
  form: 'it is comma-separated text',
  most: GREATEST_LOG,
};

export const midwayStudy = study({
  question: 'It is Monday, half of it is done: what now?',
  does: 'Say how a campaign under way will go on, and write the run sheet for the instrument',
  options: {
    done: file('Table (CSV) that tells how the campaign stands, or a log of its scans as the run sheet has it'),
    now: text('When that is, such as "Tue 14:00" [default: the last time in the log of scans]'),
    template: aside(flag('Print such a table, with everything still to be done')),
    example: aside(text('Print such a table of a simulated campaign at a moment, such as "Tue 14:00"')),
    strategy: text('Strategy that is followed [default: the first one]'),
    seed: SEED,
    replications: exactly(2),
  },
  instead: (ground, { template, example, strategy, seed }) => {
    if (!template && example === undefined) return false;
    const { loaded } = ground.scenario();
    const model = modelOf(loaded, strategyNamed(loaded, strategy));
    const rows = example === undefined ? templateRows(model) : exampleRows(model, seed ?? loaded.base.seed, example);
    ground.result(csv(rows));
    return true;
  },
  begin: (ground, { done, now, strategy: name, replications }) => {
    if (done === undefined)
      throw new Failure('how does the campaign stand? --done STATE.csv; --template prints a table to fill in');
    const scenario = ground.scenario();
    const { loaded } = scenario;
    const strategy = strategyNamed(loaded, name);
    const model = modelOf(loaded, strategy);
    const { known, notes, state } = openState(ground, done, now ?? null, model);
    const making = ground.making(scenario);
    return midwayWork(loaded, {
      ...making,
      inputs: [{ option: 'done', ...state }],
      warnings: [...(making.warnings ?? []), ...notes],
      ...{ strategy, model, known, state },
      ...(replications === undefined ? {} : { replications }),
    });
  },
  report: midwayReport,
});

function modelOf(loaded: LoadedScenario, name: string): CampaignModel {
  const strategy = loaded.strategies.find((each) => each.name === name) ?? loaded.strategies[0];
  return compileModel(strategy.workflow, strategy.settings);
}

/** The example's table; a moment that cannot be read, or by which all is done, is a usage error. */
function exampleRows(model: CampaignModel, seed: string, typed: string): readonly (readonly string[])[] {
  const moment = readMoment(model, typed);
  if (!moment.ok) throw new Failure(`--example: ${moment.message}`);
  const known = exampleAt(model, seed, moment.value);
  if (known === null)
    throw new Failure(`--example ${typed}: the simulated campaign is over by then; an earlier moment is wanted`);
  return stateRows(model, known);
}

function openState(ground: Ground, path: string, now: string | null, model: CampaignModel) {
  const read = ground.text(path, STATE_TEXT);
  const { sha256 } = read;
  const scans = isScanLog(read.text) ? stateFromScans(model, read.text, now) : null;
  if (scans === null && now !== null)
    throw new Failure('--now goes with a log of scans; a table of how the campaign stands has a row for it');
  const reading = scans?.ok === false ? scans : readState(model, scans === null ? read.text : csv(scans.rows));
  if (reading.ok) return { known: reading.known, notes: reading.notes, state: { file: basename(path), sha256 } };
  ground.show(read, reading.faults, 'error');
  throw new Failure(`${counted(reading.faults.length, 'error')} in ${path}; nothing was run or written`);
}
