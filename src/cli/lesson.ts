import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { factsOf } from '../lesson/facts.js';
import { lessonPage } from '../lesson/shell.js';
import { provenanceOf } from '../study/about.js';
import { writeWholeFile } from './whole-file.js';
import { openScenario, SCENARIO_TEXT } from './scenario-file.js';
import { beginCommand, type Cli } from './shared.js';
import { readText } from './text-file.js';
import { recordedHere } from './version.js';

const options = {
  out: { type: 'string', requiresArg: true, default: 'lesson.html', describe: 'The page to write' },
} as const;

const shipped = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** A script of the page, as the build has bundled it. */
function bundle(name: string): string {
  return readFileSync(shipped(`../lesson/bundles/${name}.js`), 'utf8');
}

export function addLesson(cli: Cli): Cli {
  return cli.command(
    'lesson [file]',
    'Write a page that teaches why rushing costs time, with the engine in it',
    (command) =>
      command
        .positional('file', {
          type: 'string',
          describe: 'The scenario (YAML) [default: a session of islands in air, our own]',
        })
        .options(options),
    (given) => {
      const console = beginCommand(given, options);
      const file = given.file ?? shipped('../../scenarios/lesson.yaml');
      const { loaded, sha256 } = openScenario(file, console);
      const page = lessonPage({
        facts: factsOf(loaded, basename(file)),
        scenario: readText(file, SCENARIO_TEXT).text,
        about: loaded.base.about ?? null,
        cautions: loaded.base.cautions,
        tool: provenanceOf({ file, sha256, ...recordedHere() }).tool,
        sha256,
        page: bundle('page'),
        worker: bundle('worker'),
      });
      writeWholeFile(given.out, page);
      console.note(`wrote ${given.out}; open it in a browser`);
    },
  );
}
