import type { Followed } from './checks/run.js';
import { type Mended, mend } from './mend.js';
import type { Path } from './places.js';
import type { RawMap } from './schema-walk.js';
import { guarded, soundly } from './sound.js';
import { MERGED, type Overlaid, overlay } from './strategies.js';
import { startsWith } from './value-path.js';

/** A hole as large as the whole. */
const ALL: Path = [];

/** Every strategy of a mended scenario, as far as its settings are what was written; null for one of which nothing is known. */
export function followedIn(base: Mended, written: RawMap): readonly (Followed | null)[] {
  const shared = guarded(base.settings, base.holes);
  return Array.from(base.settings.strategies.keys(), (index) =>
    soundly(() => {
      const workflow = shared.strategies.at(index)?.workflow;
      const overlaid = overlay(base.raw, index);
      const mended = mend(overlaid.raw, written);
      if (workflow === undefined || mended === null) return null;
      const name = soundly(() => shared.strategies.at(index)?.name, undefined) ?? String(index);
      const holes = [...inherited(base.holes, overlaid), ...mended.holes, ...unknown(base.holes, overlaid, index)];
      return { name, workflow, settings: guarded(mended.settings, holes), overlaid };
    }, null),
  );
}

/** Holes of the shared part that the strategy does not fill itself; of a list from which it takes items, the whole list. */
function inherited(holes: readonly Path[], { overrides }: Overlaid): readonly Path[] {
  return holes.flatMap((hole) => {
    const shortened = overrides.find(
      ({ target, takesItemAway }) => takesItemAway && startsWith(hole, target.slice(0, -1)),
    );
    if (shortened !== undefined) return [shortened.target.slice(0, -1)];
    return overrides.some(({ target }) => startsWith(hole, target)) ? [] : [hole];
  });
}

/** What the strategy was to lay over the shared part, where that is not known. */
function unknown(holes: readonly Path[], { problems }: Overlaid, index: number): readonly Path[] {
  if (problems.length > 0) return [ALL];
  return holes.flatMap(([part, at, ...own]) => {
    if (part !== 'strategies' || at !== index || own[0] === 'name') return [];
    return [MERGED.includes(String(own[0])) ? own : ALL];
  });
}
