import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import type { InputFile } from '../../analysis/about.js';
import { shortened } from '../../report/text.js';
import { EXIT, Failure } from '../../scenario/failure.js';
import { loadScenario } from '../../scenario/load.js';
import { shellLine } from '../../scenario/shell-line.js';
import type { Ground, ScenarioFile } from '../study.js';
import type { Written } from './edit.js';

/**
 * Has what was fitted written into a scenario; a failure, with nothing written, where that would be no sound scenario.
 * @param what was fitted, such as `hazards`
 * @param further what else is said afterwards
 * @returns the scenario as a file that was read: as it is with what was fitted in it, since written into once more it stays
 * so, and what it was before is gone
 */
export function fill(
  ground: Ground,
  { file, sha256 }: ScenarioFile,
  written: Written,
  what: string,
  further: readonly string[] = [],
): InputFile {
  if (!written.ok) throw new Failure(written.messages.map((message) => `${file}: ${message}`));
  const { text } = written;
  const loaded = loadScenario(text);
  if (!loaded.ok) {
    const errors = loaded.faults.filter(({ severity }) => severity === 'error');
    ground.show({ file: `${file} (with the ${what})` }, errors, 'error');
    throw new Failure(
      `with the fitted ${what} ${file} would be no sound scenario any more; nothing was written`,
      EXIT.failed,
    );
  }
  const doubtful = written.doubtful.map(
    ({ line, comment }) =>
      `${file}:${line}: the comment “${shortened(comment, 60)}” stands beside a value that was replaced; it may no longer be true`,
  );
  const next = `wrote the ${what} into ${file}; next:  ${shellLine('compare', file)}`;
  ground.rewrite({ file, text, sha256, notes: [...doubtful, next, ...further] });
  return { option: 'into', file: basename(file), sha256: createHash('sha256').update(text).digest('hex') };
}
