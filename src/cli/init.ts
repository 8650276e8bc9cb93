import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { suggestion } from '../scenario/nearest.js';
import { shellLine } from '../scenario/shell-line.js';
import { Failure } from '../scenario/failure.js';
import { flag, text } from '../studies/options.js';
import { askScenario } from './ask-scenario.js';
import { asking, canAsk } from './asking.js';
import { command } from './command.js';
import { writeWholeFile } from '../execution/machine/whole-file.js';

const SETTINGS = ['ambient', 'vacuum', 'soft-sample', 'multi-tip'];

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

export const init = command({
  does: 'Write a commented scenario to start from',
  takes: { form: '<file>', help: 'The file to write' },
  options: {
    setting: text(`Experiment to start from: ${SETTINGS.join(', ')}`),
    ask: flag('Ask a few questions instead, and write the scenario that they make'),
    force: flag('Replace a file that is there already'),
  },
  run: async ({ setting, ask, force }, { file, console }) => {
    if (ask && setting !== undefined) throw new Failure('--ask and --setting do not go together');
    if (ask && !canAsk()) throw new Failure('there is no terminal to ask on; --setting gives a file to start from');
    if (existsSync(file)) {
      if (statSync(file).isDirectory()) throw new Failure(`${file} is a folder; name a file in it`);
      if (!force) throw new Failure(`${file} is there already; --force replaces it`);
    }
    const say = (line: string) => {
      console.note(line);
    };
    const content = ask ? await asking((question) => askScenario(question, say)) : starter(setting, file);
    writeWholeFile(file, content);
    console.note(`wrote ${file}`, `Next: change it to your plan, then run  ${shellLine('preview', file)}`);
  },
});
