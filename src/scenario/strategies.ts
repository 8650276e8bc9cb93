import type { Path } from './places.js';
import { copyOf, mergeInto, writeAt } from './edit.js';
import { fillDefaults } from './defaults.js';
import { resolvePath } from './paths.js';
import type { Problem } from './problems.js';
import { scenarioSchema } from './schema/scenario.js';
import { entryOf, isMap, type RawMap } from './schema-walk.js';
import { show } from './show.js';

/** A value that a strategy lays over the shared part: where it goes, and where the strategy says so. */
export interface Override {
  readonly target: Path;
  readonly writtenAt: Path;
}

/** A strategy's whole scenario as raw data, with what it overrides and what is wrong with that. */
export interface Overlaid {
  readonly raw: RawMap;
  readonly overrides: readonly Override[];
  readonly problems: readonly Problem[];
}

/** What all strategies must share, or there is nothing to compare. */
const SHARED = new Set(['title', 'about', 'seed', 'cautions', 'strategies', 'sources', 'ranges']);
const MERGED = ['rules', 'pace'] as const;

/**
 * Lays strategy number `index` over the shared part: `rules` and `pace` entry by entry, then `set` path by path.
 * `filled` is the shared part with its defaults; it is not changed.
 */
export function overlay(filled: RawMap, index: number): Overlaid {
  const raw = copyOf(filled);
  const strategies = entryOf(filled, 'strategies');
  const strategy = Array.isArray(strategies) ? entryOf(strategies, index) : undefined;
  const overrides: Override[] = [];
  const problems: Problem[] = [];
  for (const part of MERGED) {
    const over = entryOf(strategy, part);
    const held = entryOf(raw, part);
    if (isMap(over) && isMap(held)) {
      mergeInto(held, over, [part], (target) =>
        overrides.push({ target, writtenAt: ['strategies', index, ...target] }),
      );
    }
  }
  const set = entryOf(strategy, 'set');
  for (const [text, value] of isMap(set) ? Object.entries(set) : []) {
    const writtenAt = ['strategies', index, 'set', text];
    const wrong = applyOne(raw, text, value, (target) => overrides.push({ target, writtenAt }));
    if (wrong !== null) problems.push({ path: writtenAt, at: 'key', message: wrong });
  }
  const whole = fillDefaults(scenarioSchema.omit({ strategies: true, sources: true, ranges: true }), raw);
  return { raw: isMap(whole) ? whole : raw, overrides, problems };
}

function applyOne(raw: RawMap, text: string, value: unknown, wrote: (target: Path) => void): string | null {
  const [first = ''] = text.split('.');
  if (SHARED.has(first)) return `${show(first)} is shared by all strategies; a strategy cannot set it`;
  const resolved = resolvePath(scenarioSchema, raw, text);
  if (!resolved.ok) return resolved.message;
  wrote(resolved.path);
  return writeAt(scenarioSchema, raw, resolved.path, copyOf(value));
}
