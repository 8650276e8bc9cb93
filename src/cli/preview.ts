import { prettyJson } from '../report/json.js';
import { previewText } from '../report/preview.js';
import { shellLine } from '../scenario/shell-line.js';
import { previewScenario } from '../analysis/preview.js';
import { flag } from '../studies/options.js';
import { command } from './command.js';
import { comparisonTakes } from './forecast.js';
import { openScenario } from './scenario-file.js';

export const preview = command({
  does: 'Check a scenario, and show its plan and what is only assumed, without running it',
  takes: { form: '<file>', help: 'The scenario (YAML)' },
  options: { json: flag('Print the preview as JSON') },
  run: ({ json }, { file, console }) => {
    const { loaded } = openScenario(file, console);
    const found = previewScenario(loaded);
    console.result((json ? prettyJson(found) : previewText(found)).trimEnd());
    const takes = comparisonTakes(loaded);
    console.note('', ...(takes === null ? [] : [takes]), `No fault found. Next: ${shellLine('compare', file)}`);
  },
});
