import { lawName } from '../../../study/fit/words.js';
import type { LawFit } from '../../../study/fit/results.js';
import { lawScales } from './panels.js';

/** Lines of the laws of one panel, all in their colours; `curve` gives the points of one law. */
export function lawLines(laws: readonly LawFit[], curve: (law: LawFit) => readonly { x: number; y: number }[]) {
  const { color, dash } = lawScales();
  return {
    data: { values: laws.flatMap((law) => curve(law).map((point) => ({ ...point, law: lawName(law.law) }))) },
    mark: { type: 'line' as const, strokeWidth: 2, clip: true },
    encoding: {
      color: { field: 'law', type: 'nominal' as const, scale: color, legend: LEGEND },
      strokeDash: { field: 'law', type: 'nominal' as const, scale: dash, legend: LEGEND },
    },
  };
}

/** One legend for all panels, under them. */
const LEGEND = { orient: 'bottom', title: null, columns: 4, symbolType: 'stroke', symbolStrokeWidth: 2.5 } as const;
