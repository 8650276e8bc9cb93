import { show } from '../../scenario/show.js';
import { shellWords } from '../../scenario/shell-line.js';
import { Failure } from '../failure.js';

/** Commands that make a report. */
const STUDIES = ['compare', 'breakeven', 'sweep', 'sensitivity', 'budget', 'tune', 'midway', 'fit'];

/** Options that a study's results hang on and that name no file: only these are run again, whoever wrote the summary. */
const VALUES = [
  ...['seed', 'replications', 'max-replications', 'draws', 'strategy', 'vary', 'between', 'and', 'measure'],
  ...['chance', 'granted', 'goal', 'yield-at-least', 'hours', 'confidence', 'zone', 'max-campaigns'],
  ...['tip', 'column', 'unit', 'per', 'law', 'date', 'bootstrap', 'settling', 'workflow'],
];
const FLAGS = ['all', 'skip', 'drift'];

/**
 * The arguments that run a recorded command again, on copies of its files and into a folder of its own.
 * @param copies the path of each file by the option that names it
 */
export function argumentsAgain(command: string, copies: ReadonlyMap<string, string>, out: string): readonly string[] {
  const words = shellWords(command);
  if (words === null || words.length < 3) throw new Failure(`its command line cannot be read: ${show(command)}`);
  const [, study, , ...rest] = words;
  const file = copies.get('file');
  if (!STUDIES.includes(study) || file === undefined)
    throw new Failure(`its command line makes no report that could be compared: ${command}`);
  return [study, file, ...optionsAgain(rest, copies), `--out=${out}`];
}

function optionsAgain(words: readonly string[], copies: ReadonlyMap<string, string>): readonly string[] {
  const word = words.at(0);
  if (word === undefined) return [];
  const rest = words.slice(1);
  const match = /^--([a-z-]+)(?:=([^]*))?$/u.exec(word);
  const name = match?.[1] ?? '';
  const joined = match?.at(2);
  if (FLAGS.includes(name) && joined === undefined) return [word, ...optionsAgain(rest, copies)];
  const copy = name === 'file' ? undefined : copies.get(name);
  if (copy === undefined && !VALUES.includes(name))
    throw new Failure(`its command line has \`${word}\`, which is not run again from a summary`);
  const value = joined ?? rest.at(0);
  if (value === undefined) throw new Failure(`its command line ends without a value after \`${word}\``);
  return [`--${name}=${copy ?? value}`, ...optionsAgain(joined === undefined ? rest.slice(1) : rest, copies)];
}
