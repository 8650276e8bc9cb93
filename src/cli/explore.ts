import { flag, meaning } from '../studies/options.js';
import { command } from './command.js';
import { writeWholeFile } from '../execution/machine/whole-file.js';
import { explorePageOf } from './explore-page.js';
import { openPage } from './open-page.js';
import { openScenario } from './scenario-file.js';

export const explore = command({
  does: 'Write a page on which a plan is changed and answered at once, with the engine in it',
  takes: { form: '[file]', help: 'The scenario (YAML) to begin with [default: a few questions]' },
  options: {
    out: meaning('The page to write', (typed) => typed, 'explore.html'),
    'write-only': flag('Write the page without opening it in the browser'),
  },
  run: ({ out, 'write-only': isWriteOnly }, { files, console }) => {
    writeWholeFile(out, explorePageOf(files.length === 0 ? null : openScenario(files[0], console)));
    const isOpened = !isWriteOnly && openPage(out);
    console.note(`wrote ${out}${isOpened ? '' : '; open it in a browser'}`);
  },
});
