import { compileLife } from '../../chance/life.js';
import { declaredOf } from '../../probe/causes.js';
import { pathOf, scanTimeOf } from '../../probe/scan-load.js';
import { regionCount } from '../samples.js';
import { exposurePerScan } from '../../probe/scan-load.js';
import type { Scenario } from '../schema/scenario.js';
import { show } from '../show.js';
import { type Check, error, ofEachPass } from './finding.js';

/** More chips than this in one scan are a slip of the pen, and would keep a campaign busy for ever. */
const MOST_EVENTS = 1000;

/**
 * Chipping goes on and on at a rate that may grow with use: no scan may expect more than `MOST_EVENTS` of it, neither the
 * first nor one on a tip that was chipped and went unnoticed for as long as is usual. Other events happen once, and fouling
 * waits between events until it has cleared, for a hundredth of an image at least.
 */
export const chippingWithoutEnd: Check = (settings) =>
  ofEachPass(settings, (pass, index, { called, tip, kind }) =>
    (kind?.hazards ?? []).flatMap((hazard, number) => {
      if (!declaredOf(hazard.cause).effect.chips) return [];
      const scan = { pass: index, scanTime: scanTimeOf(pass, settings.pace.scan), path: pathOf(pass), load: pass.load };
      const life = compileLife(hazard.life);
      const once = exposurePerScan(hazard, scan, settings.pace);
      const aged = life.exposureAt(1) + once * scansUnnoticed(settings);
      const expected = [0, aged].map((from) => life.cumulativeHazard(from + once) - life.cumulativeHazard(from));
      // A difference of infinities is no number; it is beyond every bound as well.
      if (expected.every((events) => events <= MOST_EVENTS)) return [];
      return [
        error(
          `a ${show(tip)} tip would chip more than ${MOST_EVENTS} times in ${hazard.per === 'approach' ? 'one approach for' : 'one scan of'} ${called}${(expected[0] ?? 0) > MOST_EVENTS ? '' : ', once it is chipped and nobody notices'}; a longer life or less acceleration is wanted`,
          ['tips', tip, 'hazards', number, 'life'],
          ['tips', tip, 'hazards', number, 'acceleration'],
          ['plan', 'passes', index, 'load'],
          ['pace', 'scan'],
        ),
      ];
    }),
  );

/** Bad scans until one is noticed, on average; the whole plan at most. */
function scansUnnoticed({ plan, noticing }: Scenario): number {
  const review = noticing.review.by === 'nobody' ? 0 : noticing.review.sensitivity;
  const check = noticing.check === undefined ? 0 : noticing.check.sensitivity / noticing.check.every;
  return Math.min(1 / Math.max(review, check), regionCount(plan) * plan.passes.length);
}
