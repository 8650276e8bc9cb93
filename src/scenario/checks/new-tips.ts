import { lognormalAt } from '../../chance/normal.js';
import { bluntingOf, cubeRoot } from '../../probe/blunting.js';
import { pathOf, speedOf } from '../../probe/scan-load.js';
import { leverLoadOf } from '../plan.js';
import { aboutQuantity } from '../quantity.js';
import { isAccepted, resolutionDistance, resolutionQuality, trackingOf } from '../../probe/quality.js';
import type { Pass, TipKind } from '../schema/scenario.js';
import { show } from '../show.js';
import { type Check, error, ofEachPass, warning } from './finding.js';

/** More than one new tip in ten is too blunt where the 90th percentile of new tips is. */
const NINE_IN_TEN = 0.9;

/** A pass that a sharp new tip misses is never good; one that many new tips miss costs tips from the first. */
export const newTipsThatMissAccept: Check = (settings, workflow) =>
  ofEachPass(settings, (pass, index, { called, tip, kind }) => {
    if (kind === undefined) return [];
    const { nominal, geometricSd } = kind.radius;
    const tracking = trackingOf(pass, speedOf(pass, settings.pace.scan), leverLoadOf(settings, workflow));
    const atMidImage = (radius: number) => radiusAtMidImage(kind, pass, radius);
    const misses = (radius: number) => !isAccepted(pass, resolutionQuality(pass, radius) * tracking);
    const because = [
      ['plan', 'passes', index],
      ['pace', 'scan'],
      ['tips', tip, 'radius'],
      ['workflows', 'hop', 'mass'],
    ];
    const median = atMidImage(nominal);
    if (misses(median))
      return [
        error(
          `a new ${show(tip)} tip of median radius misses what ${called} accepts: ${account(pass, median, tracking, settings.pace.scan)}`,
          ...because,
        ),
      ];
    const blunt = atMidImage(lognormalAt(nominal, geometricSd, NINE_IN_TEN));
    if (!misses(blunt)) return [];
    return [
      warning(
        `more than one new ${show(tip)} tip in ten misses what ${called} accepts: at the 90th percentile of new tips, ${aboutQuantity('length', blunt)} at mid-image, ${account(pass, blunt, tracking, settings.pace.scan)}`,
        ...because,
      ),
    ];
  });

/** Apex radius (nm) half an image after it was `radius`, of a tip that wears as the median tip does: what the image's quality goes by. */
function radiusAtMidImage(kind: TipKind, pass: Pass, radius: number): number {
  const blunting = bluntingOf(kind);
  if (blunting === null) return radius;
  return cubeRoot(radius * radius * radius + blunting.growth(blunting.coefficient.median, pass.load, pathOf(pass) / 2));
}

function account(pass: Pass, radius: number, tracking: number, pace: number): string {
  const resolution = resolutionQuality(pass, radius);
  const distance =
    pass.dip === undefined
      ? ''
      : ` (at mid-image such a tip tells ${aboutQuantity('length', resolutionDistance(radius, pass.dip))} apart)`;
  return `quality ${short(resolution * tracking)} at pace ${pace} is below ${pass.accept}: resolution ${short(resolution)}${distance}, tracking ${short(tracking)}`;
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}
