import { createRequire } from 'node:module';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import * as elementary from '../../src/chance/elementary.js';
import { luckDigest } from '../support/luck-digest.js';
import { nonEmpty } from '../support/non-empty.js';

const manifest = z.looseObject({ dependencies: z.record(z.string(), z.string()).prefault({}) });
const readManifest = (path: string) => manifest.parse(JSON.parse(readFileSync(path, 'utf8')));

/** Folders of the packages named in a source file, and of all of the same library that these depend on. */
function closure(source: string): Set<string> {
  const require = createRequire(import.meta.url);
  const folders = new Set<string>();
  const waiting = [...readFileSync(new URL(source, import.meta.url), 'utf8').matchAll(/from '(@stdlib\/[^']+)'/g)].map(
    (found) => found[1],
  );
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    const folder = dirname(require.resolve(`${name}/package.json`));
    if (folders.has(folder)) continue;
    folders.add(folder);
    const required = Object.keys(readManifest(join(folder, 'package.json')).dependencies);
    waiting.push(...required.filter((dependency) => dependency.startsWith('@stdlib/')));
  }
  return folders;
}

function membersOfMath(folder: string): string[] {
  const library = join(folder, 'lib');
  return readdirSync(library)
    .filter((name) => name.endsWith('.js'))
    .map((name) => readFileSync(join(library, name), 'utf8').replace(/\/\*[^]*?\*\/|\/\/.*$/gm, ''))
    .flatMap((code) => [...code.matchAll(/\bMath\.(\w+)/g)].map((found) => found[1]));
}

describe('the elementary functions', () => {
  it('come from packages that call only what every engine rounds alike', () => {
    const folders = closure('../../src/chance/elementary.ts');
    expect(folders.size).toBeGreaterThan(80);
    const used = new Set([...folders].flatMap(membersOfMath));
    // Each of these is exactly specified by ECMAScript; f16round is only asked whether it is there.
    const exact = ['abs', 'ceil', 'f16round', 'floor', 'fround', 'round', 'sqrt'];
    expect([...used].filter((member) => !exact.includes(member))).toEqual([]);
  });

  it('give the same bits when the transcendental functions of the engine are out of order', () => {
    const expected = luckDigest(100, 300);
    const inexact = [
      'exp',
      'log',
      'log1p',
      'expm1',
      'log2',
      'log10',
      'pow',
      'sin',
      'cos',
      'tan',
      'cbrt',
      'hypot',
      'atan',
      'sinh',
      'cosh',
      'tanh',
    ] as const;
    const kept = inexact.map((name) => Reflect.get(Math, name));
    try {
      for (const name of inexact) Reflect.set(Math, name, () => NaN);
      expect(luckDigest(100, 300)).toBe(expected);
    } finally {
      inexact.forEach((name, i) => Reflect.set(Math, name, kept[i]));
    }
  });

  // The engine's own functions are good to a unit or two in the last place on these arguments.
  it.each([
    ['exp', elementary.exp, Math.exp, [-700, -1, 1e-9, 0.5, 30, 700]],
    ['ln', elementary.ln, Math.log, [1e-300, 0.1, 0.999, 3, 1e300]],
    ['log1p', elementary.log1p, Math.log1p, [-0.999, -1e-12, 1e-12, 0.3, 1e9]],
    ['expm1', elementary.expm1, Math.expm1, [-40, -1e-12, 1e-12, 0.3, 50]],
    ['sin', elementary.sin, Math.sin, [-3, 1e-9, 0.5, 1.57, 100]],
  ])('agree with the engine to the last digits: %s', (_, ours, engine, points) => {
    for (const x of nonEmpty(points)) expect(Math.abs(ours(x) / engine(x) - 1)).toBeLessThan(5e-16);
  });

  it('raise to powers', () => {
    expect(elementary.pow(2, 10)).toBe(1024);
    expect(elementary.pow(0, 2.5)).toBe(0);
    expect(elementary.pow(10, -0.5)).toBeCloseTo(Math.sqrt(0.1), 15);
  });
});
