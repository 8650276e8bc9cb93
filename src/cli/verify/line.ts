import { Failure } from '../../scenario/failure.js';
import { shellWords } from '../../scenario/shell-line.js';
import { show } from '../../scenario/show.js';
import { studyNamed } from '../../studies/index.js';
import type { Options } from '../../studies/options.js';

/**
 * The arguments that run a recorded command again, on copies of its files and into a folder of its own: only options that
 * the study's results hang on are run again, whoever wrote the summary.
 * @param copies the path of each file by the option that names it
 */
export function argumentsAgain(command: string, copies: ReadonlyMap<string, string>, out: string): readonly string[] {
  const words = shellWords(command);
  if (words === null || words.length < 3) throw new Failure(`its command line cannot be read: ${show(command)}`);
  const [, name, , ...rest] = words;
  const file = copies.get('file');
  const study = studyNamed(name);
  if (study === null || file === undefined)
    throw new Failure(`its command line makes no report that could be compared: ${command}`);
  return [name, file, ...optionsAgain(study.options, rest, copies), `--out=${out}`];
}

function optionsAgain(
  options: Options,
  words: readonly string[],
  copies: ReadonlyMap<string, string>,
): readonly string[] {
  const word = words.at(0);
  if (word === undefined) return [];
  const rest = words.slice(1);
  const match = /^--([a-z-]+)(?:=([^]*))?$/u.exec(word);
  const name = match?.[1] ?? '';
  const joined = match?.at(2);
  const option = new Map(Object.entries(options)).get(name);
  if (option?.kind === 'flag' && option.changesNothing !== true && joined === undefined)
    return [word, ...optionsAgain(options, rest, copies)];
  const copy = option?.kind === 'file' ? copies.get(name) : undefined;
  if (option === undefined || option.changesNothing === true || (option.kind === 'file' && copy === undefined))
    throw new Failure(`its command line has \`${word}\`, which is not run again from a summary`);
  const value = joined ?? rest.at(0);
  if (value === undefined) throw new Failure(`its command line ends without a value after \`${word}\``);
  return [`--${name}=${copy ?? value}`, ...optionsAgain(options, joined === undefined ? rest.slice(1) : rest, copies)];
}
