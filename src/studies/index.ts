import { breakEvenStudy } from './breakeven/study.js';
import { budgetStudy } from './budget/study.js';
import { compareStudy } from './compare/study.js';
import { fitStudy } from './fit/study.js';
import { hindcastStudy } from './hindcast/study.js';
import { midwayStudy } from './midway/study.js';
import { occupancyStudy } from './occupancy/study.js';
import { sensitivityStudy } from './sensitivity/study.js';
import type { Study } from './study.js';
import { sweepStudy } from './sweep/study.js';
import { tuneStudy } from './tune/study.js';
import { worthStudy } from './worth/study.js';

/** Every study by its name, which is that of its command. */
export const STUDIES = {
  fit: fitStudy,
  compare: compareStudy,
  breakeven: breakEvenStudy,
  sweep: sweepStudy,
  sensitivity: sensitivityStudy,
  worth: worthStudy,
  budget: budgetStudy,
  tune: tuneStudy,
  midway: midwayStudy,
  hindcast: hindcastStudy,
  occupancy: occupancyStudy,
} satisfies Record<string, Study>;

/** The study of a name that somebody wrote; null where there is none. */
export function studyNamed(name: string): Study | null {
  return new Map<string, Study>(Object.entries(STUDIES)).get(name) ?? null;
}
