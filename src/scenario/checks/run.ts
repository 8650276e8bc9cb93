import type { Assembled, LoadedScenario } from '../assemble.js';
import { type Faults, placeInStrategy } from '../faults.js';
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
    const own = overlaid[index];
    for (const finding of CHECKS.flatMap((check) => check(settings, workflow))) {
      const places = finding.because.map((path) => ({
        path,
        place: own === undefined ? null : placeInStrategy(own.overrides, path),
      }));
      const told = places.find(({ place }) => place?.own === true) ?? places[0];
      enter(
        finding,
        told?.place?.own === true ? told.place.path : (told?.path ?? []),
        writtenPath(own?.raw ?? loaded.raw, told?.path ?? []),
        faults,
      );
    }
  });
}

function enter(finding: Finding, path: readonly (string | number)[], written: string, faults: Faults): void {
  faults.add(path, written, finding.at, finding.message, finding.severity);
}
