import { basename } from 'node:path';
import { compileModel, type CampaignModel } from '../campaign/model.js';
import { csv } from '../report/csv.js';
import { midwayFiles, midwayText } from '../report/midway/index.js';
import { GREATEST_LOG } from '../study/fit/sheet.js';
import type { LoadedScenario } from '../scenario/load.js';
import type { TextFault } from '../scenario/places.js';
import { exampleAt } from '../study/midway/made-state.js';
import { midwayWork } from '../study/midway/midway.js';
import { readMoment } from '../study/midway/moment.js';
import { readState } from '../study/midway/read-state.js';
import { stateRows } from '../study/midway/state-rows.js';
import { templateRows } from '../study/midway/template.js';
import { wholeNumber } from './arguments.js';
import type { Console } from './console.js';
import { Failure } from './failure.js';
import { faultLines } from './fault-list.js';
import { formatFault, openScenario } from './scenario-file.js';
import { pursue } from './pursue.js';
import { beginCommand, type Cli } from './shared.js';
import { closeStudy, openStudy, reportFolder, STUDY_OPTIONS, strategyNamed, studyLine } from './study.js';
import { readText } from './text-file.js';

const options = {
  done: { type: 'string', requiresArg: true, describe: 'Table (CSV) that tells how the campaign stands' },
  template: { type: 'boolean', default: false, describe: 'Print such a table, with everything still to be done' },
  example: {
    type: 'string',
    requiresArg: true,
    describe: 'Print such a table of a simulated campaign at a moment, such as "Tu 14:00"',
  },
  strategy: { type: 'string', requiresArg: true, describe: 'Strategy that is followed [default: the first one]' },
  ...STUDY_OPTIONS,
  replications: { type: 'string', requiresArg: true, describe: 'Run exactly so many replications' },
} as const;

const STATE_TEXT = {
  what: 'a table of how the campaign stands',
  form: 'it is comma-separated text',
  most: GREATEST_LOG,
};

function modelOf(loaded: LoadedScenario, name: string): CampaignModel {
  const strategy = loaded.strategies.find((each) => each.name === name) ?? loaded.strategies[0];
  return compileModel(strategy.workflow, strategy.settings);
}

/** The example's table; a moment that cannot be read, or by which all is done, is a usage error. */
function exampleRows(model: CampaignModel, seed: string, text: string): readonly (readonly string[])[] {
  const moment = readMoment(model, text);
  if (!moment.ok) throw new Failure(`--example: ${moment.message}`);
  const known = exampleAt(model, seed, moment.value);
  if (known === null)
    throw new Failure(`--example ${text}: the simulated campaign is over by then; an earlier moment is wanted`);
  return stateRows(model, known);
}

function openState(file: string, model: CampaignModel, console: Console) {
  const { text, sha256 } = readText(file, STATE_TEXT);
  const reading = readState(model, text);
  if (reading.ok) return { known: reading.known, notes: reading.notes, state: { file: basename(file), sha256 } };
  const line = (fault: TextFault) => formatFault(file, { ...fault, path: '', severity: 'error' }, console);
  for (const each of faultLines(reading.faults, line)) console.complain(each);
  const count = reading.faults.length;
  throw new Failure(`${count} error${count === 1 ? '' : 's'} in ${file}; nothing was run or written`);
}

export function addMidway(cli: Cli): Cli {
  return cli.command(
    'midway <file>',
    'Say how a campaign under way will go on, and write the run sheet for the instrument',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      if (given.template || given.example !== undefined) {
        const console = beginCommand(given, options);
        const { loaded } = openScenario(given.file, console);
        const model = modelOf(loaded, strategyNamed(loaded, given.strategy));
        const rows =
          given.example === undefined
            ? templateRows(model)
            : exampleRows(model, given.seed ?? loaded.base.seed, given.example);
        console.result(csv(rows).trimEnd());
        return;
      }
      if (given.done === undefined)
        throw new Failure('how does the campaign stand? --done STATE.csv; --template prints a table to fill in');
      const replications =
        given.replications === undefined
          ? undefined
          : wholeNumber('replications', given.replications, { min: 2, max: 1_000_000 });
      const study = openStudy(given, options, reportFolder(given, 'midway'));
      const strategy = strategyNamed(study.loaded, given.strategy);
      const model = modelOf(study.loaded, strategy);
      const { known, notes, state } = openState(given.done, model, study.console);
      const command = studyLine('midway', given.file, {
        done: state.file,
        strategy: given.strategy,
        seed: given.seed,
        replications: given.replications,
      });
      const result = await pursue(
        study,
        midwayWork(study.loaded, {
          ...study.options,
          command,
          inputs: [{ option: 'done', ...state }],
          warnings: [...(study.options.warnings ?? []), ...notes],
          strategy,
          model,
          known,
          state,
          ...(replications === undefined ? {} : { replications }),
        }),
      );
      await closeStudy(
        study,
        (draw) => midwayFiles(result, draw),
        midwayText(result, study.console.styles, study.console.columns),
      );
    },
  );
}
