import { dirname } from 'node:path';
import { Failure } from '../../scenario/failure.js';
import type { ShardAbout } from './about.js';
import { lineOf } from './about.js';
import type { Shard } from './open.js';

type Program = ShardAbout['tool'];

/**
 * The shards in order, where they are all shards of one study and were made by this program.
 * @throws Failure that names every file that does not go with the first one, what is twice, or what is missing
 */
export function inOrder(shards: readonly Shard[], here: Program): readonly Shard[] {
  const [first, ...others] = shards;
  const made = programOf(first.about.tool);
  if (made !== programOf(here))
    throw new Failure(
      `${first.file} was made by ${made}, and this is ${programOf(here)}, which may give other numbers; merge with the program that made it`,
    );
  const strangers = others.flatMap((shard) => differences(first, shard));
  if (strangers.length > 0) throw new Failure(strangers);
  const sorted = shards.toSorted((a, b) => a.about.shard.number - b.about.shard.number);
  const twice = sorted.flatMap((shard, place) => {
    const before = sorted.at(place - 1);
    return place > 0 && before?.about.shard.number === shard.about.shard.number
      ? [`${before.file} and ${shard.file} both hold shard ${nameOf(shard.about)}`]
      : [];
  });
  if (twice.length > 0) throw new Failure(twice);
  const { of } = first.about.shard;
  const there = new Set(sorted.map(({ about }) => about.shard.number));
  const missing = Array.from({ length: of }, (_, i) => i + 1).filter((number) => !there.has(number));
  if (missing.length > 0) {
    // Into the folder where the others are, whatever that is usually called.
    const line = lineOf({ ...first.about, options: { ...first.about.options, out: dirname(first.file) } });
    throw new Failure(missingText(missing, of, line));
  }
  return sorted;
}

const SHOWN = 20;

function missingText(missing: readonly number[], of: number, line: string): string {
  const shown = missing.slice(0, SHOWN).join(', ');
  const more = missing.length > SHOWN ? ` and ${missing.length - SHOWN} more` : '';
  const words = missing.length === 1 ? `shard ${shown} of ${of} is` : `shards ${shown}${more} of ${of} are`;
  return `${words} missing; one is made with: ${line} --shard ${missing[0]}/${of}`;
}

function nameOf({ shard }: ShardAbout): string {
  return `${shard.number}/${shard.of}`;
}

function programOf({ name, version, commit }: Program): string {
  return `${name} ${version}${commit === null ? '' : ` of commit ${commit}`}`;
}

/** What a shard says of itself otherwise than the first one, as messages. */
function differences(first: Shard, other: Shard): readonly string[] {
  const [a, b] = [first.about, other.about];
  const fields: readonly (readonly [what: string, here: string, there: string])[] = [
    ['program', programOf(a.tool), programOf(b.tool)],
    ['scenario', scenarioOf(a), scenarioOf(b)],
    ['seed', `"${a.seed}"`, `"${b.seed}"`],
    ['study', studyOf(a), studyOf(b)],
    ['number of shards', String(a.shard.of), String(b.shard.of)],
  ];
  return fields
    .filter(([, here, there]) => here !== there)
    .map(([what, here, there]) => `${other.file} does not go with ${first.file}: its ${what} is ${there}, not ${here}`);
}

function studyOf({ study, options }: ShardAbout): string {
  return [study, ...Object.entries(options).map(([name, value]) => `--${name} ${value}`)].join(' ');
}

function scenarioOf({ scenario }: ShardAbout): string {
  return `${scenario.file} with SHA-256 ${scenario.sha256}`;
}
