import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { factsOf } from '../lesson/facts.js';
import { lessonPage } from '../lesson/shell.js';
import { provenanceOf } from '../analysis/about.js';
import { meaning } from '../studies/options.js';
import { command } from './command.js';
import { writeWholeFile } from '../execution/machine/whole-file.js';
import { scriptsOf } from './page-scripts.js';
import { openScenario } from './scenario-file.js';
import { recordedHere } from './version.js';

const shipped = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export const lesson = command({
  does: 'Write a page that teaches why rushing costs time, with the engine in it',
  takes: { form: '[file]', help: 'The scenario (YAML) [default: a session of islands in air, our own]' },
  options: { out: meaning('The page to write', (typed) => typed, 'lesson.html') },
  run: ({ out }, { files: [file = shipped('../../scenarios/lesson.yaml')], console }) => {
    const { loaded, sha256, text } = openScenario(file, console);
    const page = lessonPage({
      facts: factsOf(loaded, basename(file)),
      scenario: text,
      about: loaded.base.about ?? null,
      cautions: loaded.base.cautions,
      tool: provenanceOf({ file, sha256, ...recordedHere() }).tool,
      sha256,
      ...scriptsOf('lesson'),
    });
    writeWholeFile(out, page);
    console.note(`wrote ${out}; open it in a browser`);
  },
});
