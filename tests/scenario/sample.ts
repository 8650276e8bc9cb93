import { withDefaults } from '../../src/scenario/assemble.js';
import { readDocument } from '../../src/scenario/document.js';
import type { RawMap } from '../../src/scenario/schema-walk.js';
import { type Fault, type LoadedScenario, loadScenario } from '../../src/scenario/load.js';

/** A small scenario without fault; tests change single lines of it. */
export const SAMPLE = `title: Islands on a flat film
plan:
  order: region-first
  regions: 4
  passes:
    - name: topography
      tip: sharp
      size: 5 um
      lines: 128
      neededResolution: 100 nm
      dip: 1 nm
    - name: current
      tip: coated
      size: 2 um
      signal: electrical
tips:
  sharp:
    hazards:
      - cause: breakage
        per: distance
        life: {distribution: exponential, mean: 800 mm}
  coated:
    hazards:
      - {cause: coating, per: hour, life: {distribution: weibull, shape: 2, scale: 30 h}}
    price: 60 EUR
workflows:
  hop:
    steps:
      prepare: 45 min
    chip: {sites: {sharp: 12, coated: 12}, price: 900 EUR}
strategies:
  - name: by hand
    workflow: swap
  - name: hopping
    workflow: hop
`;

export function load(text: string): LoadedScenario {
  const result = loadScenario(text);
  if (!result.ok) throw new Error(shown(result.faults).join('\n'));
  return result.scenario;
}

/** The scenario as a person would write it with every default filled in. */
export function filled(text: string): RawMap {
  const document = readDocument(text);
  if (!document.ok) throw new Error(document.faults[0]?.message);
  return withDefaults(document.raw);
}

export function faultsOf(text: string): readonly Fault[] {
  const result = loadScenario(text);
  return result.ok ? result.warnings : result.faults;
}

/** `line:column path: message`, as a terminal shows them. */
export function shown(faults: readonly Fault[]): readonly string[] {
  return faults.map(({ line, column, path, message }) => `${line}:${column} ${path}: ${message}`);
}

/** The sample with one piece of text put for another, which must be there. */
export function altered(...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`the sample has no ${from}`);
    return text.replace(from, () => to);
  }, SAMPLE);
}
