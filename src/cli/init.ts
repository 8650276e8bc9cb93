import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { suggestion } from '../scenario/nearest.js';
import { shellLine } from '../scenario/shell-line.js';
import { Failure } from './failure.js';
import { writeWholeFile } from './whole-file.js';
import { beginCommand, type Cli } from './shared.js';

const SETTINGS = ['ambient', 'vacuum', 'soft-sample', 'multi-tip'];

const options = {
  setting: { type: 'string', requiresArg: true, describe: `Experiment to start from: ${SETTINGS.join(', ')}` },
  force: { type: 'boolean', default: false, describe: 'Replace a file that is there already' },
} as const;

const shipped = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/**
 * The commented starter of a setting, as it ships with the package; its first line leads an editor from the new file
 * to the schema.
 */
function starter(setting: string | undefined, file: string): string {
  const choice = SETTINGS.join('|');
  if (setting === undefined) throw new Failure(`which setting? --setting ${choice}`);
  if (!SETTINGS.includes(setting)) throw new Failure(`unknown setting \`${setting}\`${suggestion(setting, SETTINGS)}`);
  const schema = relative(dirname(resolve(file)), shipped('shared/scenario.schema.json'))
    .split(sep)
    .join('/');
  const text = readFileSync(shipped(`scenarios/starters/${setting}.yaml`), 'utf8');
  return text.replace(/(?<=^# yaml-language-server: \$schema=).*/, () => schema);
}

export function addInit(cli: Cli): Cli {
  return cli.command(
    'init <file>',
    'Write a commented scenario to start from',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The file to write' })
        .options(options),
    (given) => {
      const console = beginCommand(given, options);
      const text = starter(given.setting, given.file);
      if (existsSync(given.file)) {
        if (statSync(given.file).isDirectory()) throw new Failure(`${given.file} is a folder; name a file in it`);
        if (!given.force) throw new Failure(`${given.file} is there already; --force replaces it`);
      }
      writeWholeFile(given.file, text);
      console.note(
        `wrote ${given.file}`,
        `Next: change it to your plan, then run  ${shellLine('preview', given.file)}`,
      );
    },
  );
}
