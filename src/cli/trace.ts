import { basename } from 'node:path';
import { traceLine, tracePage, traceText } from '../report/index.js';
import { provenanceOf } from '../study/about.js';
import { traceReplication } from '../study/trace.js';
import { shellLine } from '../scenario/shell-line.js';
import { wholeNumber } from './arguments.js';
import { writeWholeFile } from './whole-file.js';
import { openScenario } from './scenario-file.js';
import { beginCommand, type Cli } from './shared.js';
import { strategyNamed } from './study.js';
import { recordedHere } from './version.js';

const options = {
  strategy: { type: 'string', requiresArg: true, describe: 'Name of the strategy [default: the first one]' },
  replication: {
    type: 'string',
    requiresArg: true,
    default: '1',
    describe: 'Number of the replication, as in replications.csv',
  },
  seed: { type: 'string', requiresArg: true, describe: 'Seed text in place of that of the scenario' },
  json: { type: 'boolean', default: false, describe: 'Print one JSON object a line (NDJSON)' },
  html: { type: 'string', requiresArg: true, describe: 'Write a timeline page to this file' },
} as const;

export function addTrace(cli: Cli): Cli {
  return cli.command(
    'trace <file>',
    'Show what happened in one replication of one strategy, step by step',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const console = beginCommand(given, options);
      const replication = wholeNumber('replication', given.replication, { min: 1, max: 1_000_000 });
      const { loaded, sha256 } = openScenario(given.file, console);
      const strategy = strategyNamed(loaded, given.strategy);
      const { timeline, events } = traceReplication(loaded, strategy, replication, given.seed);
      if (given.html !== undefined) {
        const page = await tracePage(timeline, events, {
          title: loaded.base.title,
          strategy,
          replication,
          seed: given.seed ?? loaded.base.seed,
          ...provenanceOf({
            file: basename(given.file),
            sha256,
            ...recordedHere(),
            command: shellLine('trace', basename(given.file), {
              strategy,
              replication: String(replication),
              seed: given.seed,
            }),
          }),
        });
        writeWholeFile(given.html, page);
        console.note(`wrote ${given.html}`);
      }
      if (given.json) console.result(events.map(traceLine).join('').trimEnd());
      else if (given.html === undefined) console.result(traceText(events).trimEnd());
    },
  );
}
