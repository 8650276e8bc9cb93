import type { Assembled, LoadedScenario } from '../assemble.js';
import { type Faults, placeInStrategy } from '../faults.js';
import type { Path } from '../places.js';
import type { Override } from '../strategies.js';
import { writtenPath } from '../paths.js';
import { CHECKS } from './all.js';
import type { Finding } from './finding.js';
import { checkCurrencies, checkRanges, checkStrategyNames, checkUnusedKinds } from './shared.js';

/** Looks for plans that are well formed but impossible or doubtful, in the shared part and in every strategy. */
export function runChecks(loaded: LoadedScenario, overlaid: Assembled['overlaid'], faults: Faults): void {
  checkStrategyNames(loaded, faults);
  checkCurrencies(loaded.raw, faults);
  checkUnusedKinds(loaded, faults);
  checkRanges(loaded, faults);
  loaded.strategies.forEach(({ settings, workflow }, index) => {
    const own = overlaid.at(index);
    for (const finding of CHECKS.flatMap((check) => check(settings, workflow))) {
      const place = placeOf(finding, own?.overrides ?? [], faults) ?? ['strategies', index, 'workflow'];
      faults.add(
        place,
        writtenPath(own?.raw ?? loaded.raw, finding.because.at(0) ?? []),
        finding.at,
        finding.message,
        finding.severity,
      );
    }
  });
}

/** Where the strategy itself says one of the values that make it so, else where the file does; null where all are defaults. */
function placeOf(finding: Finding, overrides: readonly Override[], faults: Faults): Path | null {
  for (const path of finding.because) {
    const place = placeInStrategy(overrides, path);
    if (place?.own === true) return place.path;
  }
  return finding.because.find((path) => faults.isWritten(path)) ?? null;
}
