import { prettyJson } from '../report/json.js';
import { previewText } from '../report/preview.js';
import { shellLine } from '../scenario/shell-line.js';
import { previewScenario } from '../study/preview.js';
import { openScenario } from './scenario-file.js';
import { beginCommand, type Cli } from './shared.js';

const options = {
  json: { type: 'boolean', default: false, describe: 'Print the preview as JSON' },
} as const;

export function addPreview(cli: Cli): Cli {
  return cli.command(
    'preview <file>',
    'Check a scenario, and show its plan and what is only assumed, without running it',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    (given) => {
      const console = beginCommand(given, options);
      const { loaded } = openScenario(given.file, console);
      const preview = previewScenario(loaded);
      console.result((given.json ? prettyJson(preview) : previewText(preview)).trimEnd());
      console.note('', `No fault found. Next: ${shellLine('compare', given.file)}`);
    },
  );
}
