import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inEmptyFolder, root, swapOrHop } from './command.js';

/**
 * A block of a document that this program writes: what is shown of each command's output stands in a comment above it, as
 * line numbers, from the end where negative, a part a command: `<!-- shown: 1..3, -2..-1 | 1..2 -->`.
 */
const BLOCK = /<!-- shown: (?<shown>[^>]+) -->\n\n```console\n(?<body>[\s\S]*?)```/g;
/** A file that the commands behind it read. */
const FILE = /<!-- file: (?<name>\S+) -->\n\n```\w+\n(?<text>[\s\S]*?)```/g;

/** A document with the output of every example as the built program gives it now. */
export function withFreshExamples(document: string): Promise<string> {
  return inEmptyFolder(async (folder) => {
    symlinkSync(join(root, 'scenarios'), join(folder, 'scenarios'));
    mkdirSync(join(folder, 'reports'));
    for (const { groups: { name = '', text = '' } = {} } of document.matchAll(FILE))
      writeFileSync(join(folder, name), text);
    let fresh = document;
    for (const { groups: { shown = '', body = '' } = {} } of document.matchAll(BLOCK)) {
      const commands = body.split('\n').filter((line) => line.startsWith('$ '));
      const parts: string[] = [];
      for (const [place, command] of commands.entries())
        parts.push(`${command}\n`, excerpt(await outputOf(command.slice(2), folder), shown.split('|').at(place) ?? ''));
      fresh = fresh.replace(body, () => parts.join(''));
    }
    return fresh;
  });
}

/** What a person sees in a terminal of 100 columns. */
async function outputOf(command: string, folder: string): Promise<string> {
  const [, ...words] = command.match(/'[^']*'|\S+/g)?.map((word) => word.replace(/^'(.*)'$/, '$1')) ?? [];
  const { stdout, stderr } = await swapOrHop(words, { cwd: folder });
  return stdout === '' ? stderr : stdout;
}

/** The lines that are asked for, with `…` where others are left out. */
function excerpt(output: string, shown: string): string {
  const lines = output.trimEnd().split('\n');
  const place = (text: string): number => (Number(text) < 0 ? lines.length + Number(text) : Number(text) - 1);
  let next = 0;
  const parts = shown.split(',').flatMap((range) => {
    const [from = '', to = from] = range.trim().split('..');
    if (from === '') return [];
    const [first, last] = [place(from), place(to)];
    const gap = first > next ? ['…'] : [];
    next = last + 1;
    return [...gap, ...lines.slice(first, last + 1)];
  });
  return [...parts, ...(next < lines.length ? ['…'] : [])].map((line) => `${line}\n`).join('');
}
