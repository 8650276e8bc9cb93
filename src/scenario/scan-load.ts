import { pow } from '../chance/elementary.js';
import type { Hazard, Scenario } from './schema/scenario.js';

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
export function exposurePerScan(hazard: Hazard, scan: ScanLoad, pace: Scenario['pace']): number {
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
function acceleration(
  { per, acceleration: exponents }: Hazard,
  load: number,
  { scan, hands }: Scenario['pace'],
): number {
  const factor = pow(scan, exponents.pace) * pow(load / exponents.referenceLoad, exponents.load);
  return per === 'approach' ? factor * pow(hands, exponents.hands ?? 0) : factor;
}
