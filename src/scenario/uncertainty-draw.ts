import type { Luck } from '../chance/luck.js';
import { normalQuantile } from '../chance/normal.js';
import { PURPOSES } from '../chance/purpose.js';
import type { LoadedScenario } from './assemble.js';
import { type Moved, movedTo } from './ranges.js';
import { fromScale } from './uncertainty-scale.js';
import type { UnknownInput } from './unknown-input.js';
import { withValues } from './with-value.js';

/** The scenario as one draw of what is not known has it. */
export interface Drawn {
  readonly scenario: LoadedScenario;
  /** Paths of the inputs of which a value was brought back to what the schema allows. */
  readonly clipped: readonly string[];
}

/**
 * The scenario with the values of these inputs drawn: in the shared part, so that all strategies meet the same ones, but
 * for what a strategy sets itself. What an input is drawn to depends on its path and on the luck alone (of what both workflows
 * have alike, on the path of the first), not on which others are drawn with it.
 * @throws Error where the schema refuses a value within its own limits
 */
export function withDraw(loaded: LoadedScenario, inputs: readonly UnknownInput[], luck: Luck): Drawn {
  const drawn = inputs.map((input) => ({ input, values: drawnValues(input, luck) }));
  const values = drawn.flatMap(({ values }) => values.map(({ path, moved }) => ({ path, value: moved.written })));
  const changed = withValues(loaded, values);
  if (!changed.ok) throw new Error(`A draw is refused: ${changed.faults[0]?.path}: ${changed.faults[0]?.message}`);
  const clipped = drawn.filter(({ values }) => values.some(({ moved }) => moved.isClipped));
  return { scenario: changed.scenario, clipped: clipped.map(({ input }) => input.path) };
}

/** One draw of the values of an input: normal on their scales, with their covariance. */
export function drawnValues(
  { parameters, factor }: UnknownInput,
  luck: Luck,
): readonly { readonly path: string; readonly moved: Moved }[] {
  const normals = parameters.map(({ draw: { path, index } }) => {
    // Two numbers of one path, 48 bits in all, so that no two paths of a scenario share their draws.
    const [number, more] = [numberOf(path, 0x811c9dc5), numberOf(path, 0) & 0xffff];
    return normalQuantile(luck.uniform(PURPOSES.notKnowing, 0, more, number, index));
  });
  return parameters.map((parameter, i) => {
    const place = normals.reduce((sum, normal, j) => sum + factor[i][j] * normal, parameter.centre);
    const moved = movedTo(parameter.found.leaf, parameter.written, fromScale(parameter.scale, place));
    if (moved === null) throw new Error(`${parameter.path} is no number`);
    return { path: parameter.path, moved };
  });
}

/** A number for a path, by which its draws are its own: FNV-1a of 32 bits (G. Fowler, L. C. Noll and K.-P. Vo), over UTF-16. */
function numberOf(path: string, basis: number): number {
  let hash = basis;
  for (let i = 0; i < path.length; i += 1) hash = Math.imul(hash ^ path.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
