import type { InputFile, Platform, Provenance, Tool } from '../analysis/about.js';
import { plainText } from './text.js';

/** Name, version and, where it is known, the commit of the program. */
export function toolText({ name, version, commit }: Tool): string {
  return commit === null ? `${name} ${version}` : `${name} ${version}, commit ${commit}`;
}

/** The same for the foot of a page, with as much of the commit as tells it apart. */
export function shortToolText({ name, version, commit }: Tool): string {
  return commit === null ? `${name} ${version}` : `${name} ${version} (${commit.slice(0, 10)})`;
}

/** Such as `linux, x64, Node 20.19.2`. */
export function platformText({ system, architecture, node }: Platform): string {
  return `${system}, ${architecture}, Node ${node}`;
}

function fileText({ file, sha256 }: InputFile): string {
  return `${file}, SHA-256 ${sha256}`;
}

/** What every study says of how it was made, last in its list of facts: seed (null: nothing is left to chance), files read, program and machine. */
export function recordFacts({
  seed,
  inputs,
  tool,
  platform,
}: Provenance & { readonly seed: string | null }): readonly (readonly [string, string])[] {
  return [
    ...(seed === null ? [] : [['Seed', seed] as const]),
    ['Inputs', inputs.map(fileText).join('; ')],
    ['Version', toolText(tool)],
    ...(platform === null ? [] : [['Platform', platformText(platform)] as const]),
  ];
}

/** The command line that makes the same again, as parts of a text in Markdown; none where there is no command line. */
export function againParts({ command }: Provenance): readonly string[] {
  return command === null ? [] : ['## Reproduce', `    ${plainText(command)}`];
}
