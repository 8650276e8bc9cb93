import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Failure } from '../../scenario/failure.js';
import { readBytes, sha256Of } from '../text-file.js';
import type { Recorded } from './record.js';

type Input = Recorded['inputs'][number];

const INPUT = { what: 'a file that the study read', form: '', most: 400_000_000 } as const;

/**
 * Copies of all files that a study read, as they were then and by their names, each in a folder of its own.
 * @param places folders to look in
 * @param given files that the user names; they are known by their bytes, so that they may have been renamed
 * @returns the copy's path for each option
 */
export function gatherInputs(
  inputs: readonly Input[],
  places: readonly string[],
  given: readonly string[],
  into: string,
): ReadonlyMap<string, string> {
  const known = new Map(given.map((file) => givenFile(inputs, file)));
  return new Map(
    inputs.map((input, place): [string, string] => {
      const bytes = known.get(input.sha256) ?? found(input, places);
      const copy = join(into, `input-${place}`, input.file);
      mkdirSync(dirname(copy), { recursive: true });
      writeFileSync(copy, bytes);
      return [input.option, copy];
    }),
  );
}

function givenFile(inputs: readonly Input[], file: string): [sha256: string, bytes: Buffer] {
  const bytes = readBytes(file, INPUT);
  const has = sha256Of(bytes);
  if (inputs.some(({ sha256 }) => sha256 === has)) return [has, bytes];
  throw new Failure(
    `--input ${file}: its SHA-256 is ${has}, and no file that was read had that; ${inputs.map(described).join(', ')}`,
  );
}

function described({ file, sha256 }: Input): string {
  return `${file} had ${sha256}`;
}

/** The first file of that name whose bytes are the ones recorded. */
function found(input: Input, places: readonly string[]): Buffer {
  let changed: string | null = null;
  for (const path of new Set(places.map((place) => join(place, input.file)))) {
    if (!existsSync(path)) continue;
    const bytes = readBytes(path, INPUT);
    const has = sha256Of(bytes);
    if (has === input.sha256) return bytes;
    changed ??= `${path} is not what was read: its SHA-256 is ${has}`;
  }
  const missing = `${input.file} lies neither beside the summary nor here`;
  throw new Failure(`${changed ?? missing}; ${described(input)}. Say with --input FILE where it is`);
}
