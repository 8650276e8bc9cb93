import { pow } from '../chance/elementary.js';
import type { Hazard, Pace, Scan } from './settings.js';

/** What one pass does to a tip: everything about a scan that the tip feels. */
export interface ScanLoad {
  /** Index of the pass in the plan. */
  readonly pass: number;
  /** Scan time in seconds, at the pace of the strategy. */
  readonly scanTime: number;
  /** Tip path in millimetres. */
  readonly path: number;
  /** Load in nanonewtons. */
  readonly load: number;
}

/**
 * Exposure that one whole scan, or one approach for it, adds to a hazard, in the hazard's unit and accelerated at the
 * paces of a strategy (1 = usual).
 */
export function exposurePerScan(hazard: Hazard, scan: ScanLoad, pace: Pace): number {
  return exposureOf(hazard, scan) * acceleration(hazard, scan.load, pace);
}

function exposureOf(hazard: Hazard, scan: ScanLoad): number {
  switch (hazard.per) {
    case 'image':
    case 'approach':
      return 1;
    case 'distance':
      return scan.path;
    case 'hour':
      return scan.scanTime / 3600;
  }
}

/** Accelerated failure time: paceScan^α · (load / referenceLoad)^β, per approach also paceHands^η. */
function acceleration({ per, acceleration: exponents }: Hazard, load: number, { scan, hands }: Pace): number {
  const factor = pow(scan, exponents.pace) * pow(load / exponents.referenceLoad, exponents.load);
  return per === 'approach' ? factor * pow(hands, exponents.hands ?? 0) : factor;
}

/** Seconds that one image of the pass takes: lines / (lineRate · pace). */
export function scanTimeOf(pass: Scan, pace: number): number {
  return pass.lines / (pass.lineRate * pace);
}

/** Sliding path of one image in millimetres: trace and retrace of every line. */
export function pathOf(pass: Scan): number {
  return (2 * pass.size * pass.lines) / 1e6;
}

/** Tip speed in nanometres a second. */
export function speedOf(pass: Scan, pace: number): number {
  return 2 * pass.size * pass.lineRate * pace;
}
