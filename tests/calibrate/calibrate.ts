import { breakEvenCoverage } from './breakeven.js';
import { budgetCoverage } from './budget.js';
import { compareCoverage } from './compare.js';
import type { Part, PartName } from './record.js';
import { stoppingCoverage } from './stopping.js';

export { livesText } from './lives.js';
export { markdownOf, PART_NAMES, readRecord } from './record.js';

/** Replications of each repeat: fewer than studies stop at, since intervals are the worse the fewer there are. */
const REPLICATIONS = 100;

interface Long {
  /** Repeats unless others are asked for. */
  readonly repeats: number;
  readonly run: (seed: string, repeats: number, onRepeat: () => void) => Omit<Part, 'seed' | 'date'>;
}

const PARTS: Readonly<Record<PartName, Long>> = {
  compare: {
    repeats: 10_000,
    run: (seed, repeats, onRepeat) => ({ figures: compareCoverage(seed, repeats, REPLICATIONS, onRepeat), notes: [] }),
  },
  breakeven: {
    repeats: 10_000,
    run: (seed, repeats, onRepeat) => ({ figures: breakEvenCoverage(seed, repeats, onRepeat), notes: [] }),
  },
  budget: {
    repeats: 2000,
    run: (seed, repeats, onRepeat) => ({ figures: budgetCoverage(seed, repeats, REPLICATIONS, onRepeat), notes: [] }),
  },
  stopping: {
    repeats: 2000,
    run: (seed, repeats, onRepeat) => {
      const { figures, stops } = stoppingCoverage(seed, repeats, 400, onRepeat);
      const seen = [...stops].sort(([a], [b]) => a - b).map(([replications, times]) => `${replications} (${times})`);
      return {
        figures,
        notes: [`Stopped by itself after so many replications (so many repeats): ${seen.join(', ')}.`],
      };
    },
  },
};

/** Runs one part of the calibration, with as many repeats as it wants unless others are asked for. */
export function calibrate(
  name: PartName,
  { seed, date, repeats }: { readonly seed: string; readonly date: string; readonly repeats: number | undefined },
  onRepeat: () => void,
): Part {
  const part = PARTS[name];
  return { seed, date, ...part.run(seed, repeats ?? part.repeats, onRepeat) };
}
