import type { Followed } from '../assemble.js';
import { type Faults, placeInStrategy } from '../faults.js';
import { type Path, pathKey } from '../places.js';
import type { Overlaid } from '../strategies.js';
import { writtenPath } from '../paths.js';
import { show } from '../show.js';
import { CHECKS } from './all.js';
import type { Finding } from './finding.js';

interface Said {
  readonly finding: Finding;
  readonly place: Path;
  readonly written: string;
  readonly names: string[];
}

/** Looks for strategies that are well formed but impossible or doubtful. */
export function runChecks(strategies: readonly Followed[], faults: Faults): void {
  const said = new Map<string, Said>();
  for (const [index, strategy] of strategies.entries()) {
    const { name, workflow, settings, overlaid } = strategy;
    for (const finding of CHECKS.flatMap((check) => check(settings, workflow))) {
      const place = placeOf(finding, overlaid, faults) ?? ['strategies', index, 'workflow'];
      const key = `${pathKey(place)}\n${finding.message}`;
      const earlier = said.get(key);
      if (earlier === undefined) {
        const written = writtenPath(overlaid.raw, finding.because.at(0) ?? []);
        said.set(key, { finding, place, written, names: [name] });
      } else earlier.names.push(name);
    }
  }
  for (const { finding, place, written, names } of said.values()) {
    const ending = finding.naming === true ? ` (${names.map(show).join(', ')})` : '';
    faults.add(place, written, finding.at, `${finding.message}${ending}`, finding.severity);
  }
}

/** Where the strategy itself says one of the values that make it so, else where the file does; null where all are defaults. */
function placeOf(finding: Finding, { overrides }: Overlaid, faults: Faults): Path | null {
  for (const path of finding.because) {
    const place = placeInStrategy(overrides, path);
    if (place?.own === true) return place.path;
  }
  return finding.because.find((path) => faults.isWritten(path)) ?? null;
}
