import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, relative, sep } from 'node:path';
import type { DifferingValue, Verification } from '../../report/verification.js';
import { Failure, systemReason } from '../../scenario/failure.js';

const SUMMARY = 'summary.json';

/**
 * A summary and the files beside it against a report made again.
 * @param text of the summary
 * @param fresh folder of the report made again
 */
export function compareReports(file: string, text: string, fresh: string): Verification {
  const now = readFileSync(join(fresh, SUMMARY), 'utf8');
  const others = filesIn(fresh).filter((name) => name !== SUMMARY);
  const present = others.filter((name) => existsSync(join(dirname(file), name)));
  const isSame = (name: string) => readFileSync(join(fresh, name)).equals(bytesOf(join(dirname(file), name)));
  const same = present.filter(isSame);
  return {
    file: basename(file),
    isSame: text === now,
    values: text === now ? [] : differingValues(JSON.parse(text), JSON.parse(now)),
    others: {
      same,
      different: present.filter((name) => !same.includes(name)),
      absent: others.filter((name) => !present.includes(name)),
    },
  };
}

/** Names of all files in a folder and those below, as a report calls them. */
function filesIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

function bytesOf(file: string): Buffer {
  try {
    return readFileSync(file);
  } catch (error) {
    throw new Failure(`${file}: cannot be read: ${systemReason(error)}`);
  }
}

/** All places where two plain data differ, in the order of the first; lists are compared entry by entry. */
export function differingValues(before: unknown, now: unknown, path = ''): readonly DifferingValue[] {
  if (Array.isArray(before) && Array.isArray(now)) {
    const places = Array.from({ length: Math.max(before.length, now.length) }, (_, place) => place);
    return places.flatMap((place) => differingValues(before[place], now[place], `${path}[${place}]`));
  }
  const [one, other] = [entriesOf(before), entriesOf(now)];
  if (one === null || other === null) return Object.is(before, now) ? [] : [{ path, before, now }];
  return [...new Set([...one.keys(), ...other.keys()])].flatMap((key) =>
    differingValues(one.get(key), other.get(key), path === '' ? key : `${path}.${key}`),
  );
}

function entriesOf(value: unknown): ReadonlyMap<string, unknown> | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return null;
  return new Map<string, unknown>(Object.entries(value));
}
