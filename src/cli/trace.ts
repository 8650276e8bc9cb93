import { suggestion } from '../scenario/nearest.js';
import { formatTrace, traceLines, tracePage } from '../report/trace.js';
import { traceReplication } from '../study/trace.js';
import { refuseUnknown, wholeNumber } from './arguments.js';
import { createConsole } from './console.js';
import { Failure } from './failure.js';
import { writeWholeFile } from './output-folder.js';
import { openScenario } from './scenario-file.js';
import { type Cli, SHARED_NAMES } from './shared.js';

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

/** The strategy meant, the first one where none is named. */
function chosenStrategy(wanted: string | undefined, names: readonly string[]): string {
  const chosen = wanted ?? names[0];
  if (names.includes(chosen)) return chosen;
  throw new Failure(`no strategy is called \`${chosen}\`${suggestion(chosen, names)}`);
}

export function addTrace(cli: Cli): Cli {
  return cli.command(
    'trace <file>',
    'Show what happened in one replication of one strategy, step by step',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    (given) => {
      refuseUnknown(given, [...Object.keys(options), 'file', ...SHARED_NAMES]);
      const console = createConsole({ color: given.color, quiet: given.quiet });
      const replication = wholeNumber('replication', given.replication, { min: 1, max: 1_000_000 });
      const { loaded } = openScenario(given.file, console);
      const strategy = chosenStrategy(
        given.strategy,
        loaded.strategies.map(({ name }) => name),
      );
      const trace = traceReplication(loaded, strategy, replication, given.seed);
      if (given.html !== undefined) {
        writeWholeFile(given.html, tracePage(trace));
        console.note(`wrote ${given.html}`);
      }
      if (given.json) console.result(traceLines(trace));
      else if (given.html === undefined) console.result(formatTrace(trace));
    },
  );
}
