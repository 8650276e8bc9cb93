import { assembleFilled } from './assemble.js';
import { runChecks } from './checks/run.js';
import { checkRanges, checkUnusedKinds } from './checks/shared.js';
import { currencyOf } from './currency.js';
import { Faults } from './faults.js';
import { followedIn } from './followed.js';
import { type Mended, mend } from './mend.js';
import type { RawMap } from './schema-walk.js';
import { guarded, soundly } from './sound.js';

/**
 * Checks of a scenario that does not parse as a whole: all that need none of the values that could not be read. What
 * could not be read is told by now; nothing is added about it. `filled` is `written` with its defaults.
 */
export function checkWhatIsSound(filled: RawMap, written: RawMap, faults: Faults): void {
  const base = mend(filled, written);
  if (base === null) return;
  const strategies = followedIn(base, written);
  runChecks(strategies, faults);
  soundly(() => {
    checkUnusedKinds(guarded(base.settings, base.holes), strategies, faults);
  }, undefined);
  checkSoundRanges(base, faults);
}

function checkSoundRanges({ raw, holes }: Mended, faults: Faults): void {
  const own = new Faults(null);
  const assembled = assembleFilled(raw, own);
  if (assembled === null || own.anyError) return;
  const { base, strategies } = assembled;
  checkRanges({ base, strategies, register: [], currency: currencyOf(raw), raw }, faults, holes);
}
