/** Command lines as a shell reads them: whatever is recorded, or suggested to somebody, is written here. */

const PROGRAM = 'swap-or-hop';

/** Options by their names; one that was not given is left out, one given several times is repeated, and a flag is true. */
export type Options = Readonly<Record<string, string | readonly string[] | true | undefined>>;

/** A command of this program on a file, as it can be typed again. */
export function shellLine(command: string, file: string, options: Options = {}): string {
  const given = Object.entries(options).flatMap(([name, value]) =>
    value === true ? [`--${name}`] : [value ?? []].flat().map((each) => shellOption(name, each)),
  );
  return [PROGRAM, command, shellWord(file.startsWith('-') ? `./${file}` : file), ...given].join(' ');
}

/** An option with its value, as a part of a line. */
export function shellOption(name: string, value: string): string {
  // What begins with a dash would be read as an option of its own.
  return value.startsWith('-') ? shellWord(`--${name}=${value}`) : `--${name} ${shellWord(value)}`;
}

/** One word, in quotes where a shell would read it as anything but itself. */
function shellWord(word: string): string {
  return /^[\w./,:@%+-][\w./,:@%+=-]*$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`;
}

/** A line that somebody else wrote, of the same words, of which a shell makes nothing more; null where a quote is left open. */
export function shellLineOf(line: string): string | null {
  return shellWords(line)?.map(shellWord).join(' ') ?? null;
}

/** The words of a line as `shellLine` writes it; null where a quote is left open. */
export function shellWords(line: string): readonly string[] | null {
  const word = /(?:'[^']*'|\\.|[^\s'\\])+/gsu;
  if (line.replace(word, '').trim() !== '') return null;
  const unquoted = (text: string) =>
    text.replace(
      /'([^']*)'|\\(.)/gsu,
      (_, inside: string | undefined, after: string | undefined) => inside ?? after ?? '',
    );
  return (line.match(word) ?? []).map(unquoted);
}
