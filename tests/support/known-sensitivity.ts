import { sensitivity, type SensitivityOptions } from '../../src/studies/sensitivity/sensitivity.js';
import type { Sensitivity } from '../../src/studies/sensitivity/results.js';
import { KNOWN_TEXT, loadedFrom } from './known-break-even.js';

const RECORD = { file: 'known.yaml', sha256: '0', toolVersion: '0', seed: 'sensitivity' };

export const ASKED: SensitivityOptions = { ...RECORD, between: ['swap', 'hop'], measure: 'time', isAll: false };

/** Known answer 4 with one preparation, and a range of it; all else has a source, so it alone is assumed. */
export function knownRange(prepare: string, range = '[200 s, 900 s]'): string {
  const sources = ['plan', 'tips', 'workflows.swap', 'noticing', 'rules', 'costs', 'stock', 'pace']
    .map((path) => `  ${path}: by hand\n`)
    .join('');
  const hop = ['mishandling', 'specimenLoss', 'chip', 'fineRange']
    .map((path) => `  workflows.hop.${path}: by hand\n`)
    .join('');
  const steps = ['setUp', 'warmUp', 'locate', 'retract', 'offset', 'coarseMove', 'approach', 'resonance', 'settle']
    .concat('register', 'chipExchange', 'prepare.success')
    .map((path) => `  workflows.hop.steps.${path}: by hand\n`)
    .join('');
  return `${KNOWN_TEXT.replace('fixed: 420 s', `fixed: ${prepare}`)}sources:
${sources}${hop}${steps}ranges:
  workflows.hop.steps.prepare.fixed: ${range}
`;
}

export function tried(text: string, isAll = false): Sensitivity {
  return sensitivity(loadedFrom(text), { ...ASKED, isAll });
}
