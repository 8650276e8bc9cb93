import { lognormalAt } from '../../chance/normal.js';
import { bluntingOf, cubeRoot } from '../../probe/blunting.js';
import { roundedUp } from '../../wording/numbers.js';
import { pathOf, speedOf } from '../../probe/scan-load.js';
import { leverLoadOf } from '../plan.js';
import { aboutQuantity } from '../quantity.js';
import { gridDistance, isAccepted, resolutionDistance, resolutionQuality, trackingOf } from '../../probe/quality.js';
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
      ['plan', 'passes', index, 'neededResolution'],
      ['plan', 'passes', index],
      ['pace', 'scan'],
      ['tips', tip, 'radius'],
      ['workflows', 'hop', 'mass'],
    ];
    const median = atMidImage(nominal);
    if (misses(median)) {
      const coarse = resolutionQuality(pass, median) < pass.accept ? coarseGrid(pass, median) : null;
      const quality = short(resolutionQuality(pass, median) * tracking);
      if (coarse !== null)
        return [error(`${called}: ${coarse} (quality ${quality} is below ${pass.accept})`, ...because)];
      return [
        error(
          `a new ${show(tip)} tip of median radius misses what ${called} accepts: ${account(pass, median, tracking, settings.pace.scan)}`,
          ...because,
        ),
      ];
    }
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

/** What a pass asks of lines that lie too far apart for it, whatever the tip; null where the tip resolves no more than they do. */
function coarseGrid(pass: Pass, radius: number): string | null {
  const { size, lines, pixels = lines, neededResolution, dip } = pass;
  const grid = gridDistance(pass);
  if (neededResolution === undefined || grid <= neededResolution) return null;
  if (dip !== undefined && resolutionDistance(radius, dip) >= grid) return null;
  const [count, one] = pixels < lines ? [`${pixels} pixels a line`, 'pixel'] : [`${lines} lines`, 'line'];
  const least = Math.ceil((Math.min(pixels, lines) * grid) / neededResolution);
  const what = lines >= least ? 'pixels a line' : (pass.pixels ?? least) >= least ? 'lines' : 'lines and pixels a line';
  const more = `${least} ${what}`;
  return `${aboutQuantity('length', size)} in ${count} is ${aboutQuantity('length', grid / 2)} a ${one}; a distance takes two, so ${aboutQuantity('length', neededResolution)} cannot be resolved: take ${aboutQuantity('length', roundedUp(grid))} or more, or ${more} or more`;
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}
