import type { LoadedScenario } from './assemble.js';
import { valueAt, withEnding } from './describe.js';
import { numberIn, rangeAround } from './ranges.js';
import { type RegisterValue, writtenOf } from './register.js';
import { ontoScale, type Scale } from './schema/uncertainty.js';
import { stepTimesBeside } from './siblings.js';
import { eachUnknownOnce, twinOf } from './twins.js';
import { CENTRAL_DEVIATES, type UnknownInput, type UnknownParameter } from './uncertainty.js';

/** A range whose ends lie this far apart is one of orders of magnitude: normal on the scale of logarithms. */
const LOG_FROM = 3;

/**
 * Values of the shared part that are only assumed, as parameter uncertainty, with `isAll` also those that have a source: the range that each may lie in holds the central
 * 95 % of a normal about its own middle, of the logarithm for amounts and where the range is wide. What is one and the same in both
 * workflows, and the spread of a step's time with its usual time, are one unknown. Values that carry an uncertainty of their
 * own are left out.
 */
export function assumedInputs(loaded: LoadedScenario, isAll = false): readonly UnknownInput[] {
  const { register, inputs } = loaded;
  const declared = new Set(inputs.flatMap(({ parameters }) => parameters.map(({ path }) => path)));
  return eachUnknownOnce(register).flatMap((entry) => {
    const isWanted = entry.standing === 'assumed' || (isAll && entry.standing !== 'choice');
    const isOpen = isWanted && !declared.has(entry.path) && !isSpread(register, entry.path);
    const input = isOpen ? inputOf(loaded, entry, isAll) : null;
    return input === null ? [] : [input];
  });
}

/** Uncertain inputs of a scenario by their paths, declared, assumed or with a source. */
export function inputsNamed(loaded: LoadedScenario, paths: readonly string[]): readonly UnknownInput[] {
  const declared = loaded.inputs.filter(({ path }) => paths.includes(path));
  if (declared.length === paths.length) return declared;
  return [...declared, ...assumedInputs(loaded, true).filter(({ path }) => paths.includes(path))];
}

function inputOf(loaded: LoadedScenario, value: RegisterValue, isAll: boolean): UnknownInput | null {
  const { register } = loaded;
  const leaf = valueAt(loaded, value.path)?.leaf;
  const entry =
    isAll && leaf !== undefined ? { ...value, range: value.range ?? rangeAround(leaf, writtenOf(value)) } : value;
  const main = parameterOf(loaded, entry.path, entry, null);
  const twin = twinOf(register, entry);
  if (main === null) return null;
  const others = [entry, ...(twin === null ? [] : [twin])].flatMap(({ path }) => [
    ...(path === entry.path ? [] : [path]),
    ...spreadsOf(register, path),
  ]);
  const beside = others.flatMap((path) => parameterOf(loaded, path, entry, main) ?? []);
  const parameters = [main, ...beside];
  return {
    path: entry.path,
    description: twin === null ? entry.description : withEnding(entry.description, ', in both workflows'),
    from: 'range',
    parameters,
    // One normal for all of them.
    factor: parameters.map(({ standardDeviation }) => parameters.map((_, j) => (j === 0 ? standardDeviation : 0))),
  };
}

/** @param like the parameter that this one goes along with, in proportion where that is on a scale of logarithms */
function parameterOf(
  loaded: LoadedScenario,
  path: string,
  { range }: RegisterValue,
  like: UnknownParameter | null,
): UnknownParameter | null {
  const found = path.startsWith('strategies.') ? null : valueAt(loaded, path);
  const entry = loaded.register.find((value) => value.path === path);
  if (found === null || entry === undefined || range === null) return null;
  const written = writtenOf(entry);
  const value = numberIn(found.leaf, written);
  const [low, high] = [range.low, range.high].map((end) => numberIn(found.leaf, end));
  if (value === null || low === null || high === null || !(value > 0) || !(low < high)) return null;
  const scale: Scale = low > 0 && (found.leaf.form === 'quantity' || high / low >= LOG_FROM) ? 'ln' : 'plain';
  if (like === null) {
    const [from, to] = [ontoScale(scale, low), ontoScale(scale, high)];
    const place = { centre: (from + to) / 2, standardDeviation: (to - from) / (2 * CENTRAL_DEVIATES) };
    return { path, found, written, scale, ...place, draw: { path, index: 0 } };
  }
  const { centre, standardDeviation, draw } = like;
  const here = numberIn(like.found.leaf, like.written);
  // In proportion: the spread of a step's time, or the same value of the other workflow.
  const shift = here === null ? 0 : ontoScale(like.scale, value) - ontoScale(like.scale, here);
  return { path, found, written, scale: like.scale, centre: centre + shift, standardDeviation, draw };
}

/** Times that say how far a step's usual time spreads, beside that at a path. */
function spreadsOf(register: readonly RegisterValue[], path: string): readonly string[] {
  const at = path.lastIndexOf('.') + 1;
  if (!path.includes('.steps.')) return [];
  const beside = stepTimesBeside(path.slice(at)).map((key) => path.slice(0, at) + key);
  return beside.filter((each) => register.some((value) => value.path === each));
}

function isSpread(register: readonly RegisterValue[], path: string): boolean {
  return register.some((value) => spreadsOf(register, value.path).includes(path));
}
