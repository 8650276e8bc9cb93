import { stringify } from 'yaml';
import { type LoadedScenario, loadScenario } from '../../src/scenario/load.js';
import { laidOver, type Raw } from '../support/stage.js';

const none = (names: readonly string[]): Raw => Object.fromEntries(names.map((name) => [name, '0 s']));
const sure = { fixed: '0 s', success: 1 };
const COMMON = ['setUp', 'warmUp', 'locate', 'retract', 'resonance', 'approach', 'settle'];

/** Nothing takes time but scans of one minute, nothing fails, a perfect automatic review takes no time, attempts do not bind. */
const STILL: Raw = {
  title: 'A case with a known answer',
  plan: { regions: 1, passes: [{ name: 'image', tip: 'tip', size: '100 nm', lines: 60, lineRate: '1 Hz', accept: 1 }] },
  tips: { tip: { radius: { nominal: '8 nm', spread: 1 } } },
  workflows: {
    swap: {
      mishandling: { probability: 0 },
      steps: { ...none([...COMMON, 'exchange', 'align']), relocate: sure },
    },
    hop: {
      prepareAt: 'instrument',
      mishandling: { probability: 0 },
      specimenLoss: 0,
      chip: { sites: { tip: 100_000 } },
      steps: { ...none([...COMMON, 'offset', 'coarseMove', 'chipExchange']), prepare: sure, register: sure },
    },
  },
  noticing: { review: { by: 'automatic', time: '0 s', sensitivity: 1, falseAlarm: 0 }, attempts: 1000 },
};

/** Seconds of one scan. */
export const SCAN = 60;

/** The still scene with what a case lays over it, without the register, whose turns cost time and touch no interval. */
export function scene(over: Raw): LoadedScenario {
  const loaded = loadScenario(stringify(laidOver(STILL, over)));
  if (!loaded.ok) throw new Error(loaded.faults.map(({ path, message }) => `${path}: ${message}`).join('\n'));
  return { ...loaded.scenario, register: [] };
}

/** A kind of tip that an image breaks with a chance. */
export function breaking(perUnit: number): Raw {
  return {
    tip: { hazards: [{ cause: 'breakage', per: 'image', life: { law: 'probability', perUnit } }] },
  };
}

/** What a study is told of the file, and its seed. */
export function seeded(seed: string): { seed: string; file: string; sha256: string; toolVersion: string } {
  return { seed, file: 'case.yaml', sha256: '', toolVersion: '0' };
}
