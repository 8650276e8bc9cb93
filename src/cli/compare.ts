import { basename, join, parse } from 'node:path';
import { reportFiles, summaryJson, terminalText } from '../report/index.js';
import { compare } from '../study/compare.js';
import { shellLine, wholeNumber } from './arguments.js';
import { checkOutputFolder, writeOutputFolder } from './output-folder.js';
import { createProgress } from './progress.js';
import { openScenario } from './scenario-file.js';
import { beginCommand, type Cli } from './shared.js';
import { toolVersion } from './version.js';

const options = {
  out: { type: 'string', requiresArg: true, describe: 'Folder for the report [default: reports/<name of the file>]' },
  seed: { type: 'string', requiresArg: true, describe: 'Seed text in place of that of the scenario' },
  replications: { type: 'string', requiresArg: true, describe: 'Run exactly so many replications' },
  'max-replications': {
    type: 'string',
    requiresArg: true,
    describe: 'Stop after so many at the latest [default: 20000]',
  },
  json: { type: 'boolean', default: false, describe: 'Print summary.json on stdout in place of the table' },
} as const;

const REPLICATIONS = { min: 2, max: 1_000_000 };

/** The command that makes the same report again, wherever the scenario lies. */
function commandLine(given: {
  file: string;
  seed?: string | undefined;
  replications?: string | undefined;
  'max-replications'?: string | undefined;
}): string {
  return shellLine('swap-or-hop', 'compare', basename(given.file), {
    seed: given.seed,
    replications: given.replications,
    'max-replications': given['max-replications'],
  });
}

export function addCompare(cli: Cli): Cli {
  return cli.command(
    'compare <file>',
    'Run all strategies of a scenario on the same luck, print the comparison and write the report',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const console = beginCommand(given, options);
      const replications =
        given.replications === undefined ? undefined : wholeNumber('replications', given.replications, REPLICATIONS);
      const limit = given['max-replications'];
      const maxReplications = limit === undefined ? undefined : wholeNumber('max-replications', limit, REPLICATIONS);
      const folder = given.out ?? join('reports', parse(given.file).name);
      const { loaded, sha256, warnings } = openScenario(given.file, console);
      checkOutputFolder(folder);

      const progress = createProgress(console);
      const result = compare(loaded, {
        ...(given.seed === undefined ? {} : { seed: given.seed }),
        ...(replications === undefined ? {} : { replications }),
        ...(maxReplications === undefined ? {} : { maxReplications }),
        file: basename(given.file),
        sha256,
        warnings,
        toolVersion: toolVersion(),
        onProgress: ({ phase, done, of }) => {
          progress.update(phase, done, of);
        },
      });
      progress.stop();

      const files = await reportFiles(result, { command: commandLine(given) });
      writeOutputFolder(folder, files);
      const { summary } = result;
      const text = given.json ? summaryJson(summary) : terminalText(summary, console.styles, console.columns);
      console.result(text.trimEnd());
      console.note(`\nwrote ${files.size} files; open ${join(folder, 'report.html')}`);
    },
  );
}
