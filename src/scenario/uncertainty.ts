import * as z from 'zod';
import { type Path, startsWith } from './places.js';
import type { Problem } from './problems.js';
import { movedTo, type WrittenRange } from './ranges.js';
import { sharedSchema } from './schema/scenario.js';
import { fromScale, type Uncertain, uncertainties } from './schema/uncertainty.js';
import { dataAt, entriesOf, type RawMap, type Schema } from './schema-walk.js';
import { followedAt, type Overlaid, type OwnValue } from './strategies.js';
import { twinPath } from './twins.js';
import {
  CENTRAL_DEVIATES,
  type Carrier,
  readCarrier,
  type UnknownInput,
  type UnknownParameter,
} from './uncertainty-reading.js';

export { CENTRAL_DEVIATES, type UnknownInput, type UnknownParameter } from './uncertainty-reading.js';

/**
 * Every uncertainty of a scenario (all defaults filled in), and what is wrong with those that name values that do not stand
 * beside them, or are no covariance or range that these could have; or that a strategy sets, since all share them.
 */
export function readUncertainties(
  filled: RawMap,
  strategies: readonly Overlaid[],
): { readonly inputs: readonly UnknownInput[]; readonly problems: readonly Problem[] } {
  const carriers = carriersBelow(sharedSchema, filled, []);
  const readings = carriers.map((carrier) => ({ carrier, reading: readCarrier(carrier, filled) }));
  const problems = readings.flatMap(({ carrier: { path, key }, reading }) =>
    reading.ok
      ? []
      : reading.problems.map((each): Problem => ({ ...each, path: [...path, key, ...each.path], at: 'value' })),
  );
  return {
    inputs: eachDrawnOnce(readings.flatMap(({ reading }) => (reading.ok ? [reading.input] : []))),
    problems: [...problems, ...strategies.flatMap((strategy) => setByOne(carriers, strategy))],
  };
}

function carriersBelow(schema: Schema, data: unknown, path: Path): readonly Carrier[] {
  return entriesOf(schema, data).flatMap((entry): readonly Carrier[] => {
    const uncertain = uncertaintyOf(entry.schema);
    if (uncertain !== undefined) return [{ ...uncertain, path, key: entry.key, written: entry.data }];
    return carriersBelow(entry.schema, entry.data, [...path, entry.key]);
  });
}

function uncertaintyOf(schema: Schema): Uncertain | undefined {
  return schema instanceof z.ZodType ? uncertainties.get(schema) : undefined;
}

/** What is uncertain of a tip is so for all strategies; one that has tips of its own says what it takes them to be. */
function setByOne(carriers: readonly Carrier[], { raw, overrides }: Overlaid): readonly Problem[] {
  const places = [...carriers, ...carriersBelow(sharedSchema, raw, [])].map(({ path, key }) => [...path, key]);
  return overrides.flatMap(({ target, writtenAt }): readonly Problem[] => {
    const own = places.find((place) => startsWith(target, place) || startsWith(place, target));
    const isWritten = own !== undefined && (startsWith(target, own) || dataAt(raw, own) !== undefined);
    const message = 'an uncertainty is shared by all strategies; a strategy cannot set it';
    return isWritten ? [{ path: writtenAt, at: 'key', message }] : [];
  });
}

/** What both workflows have alike is one unknown, and so drawn as one. */
function eachDrawnOnce(inputs: readonly UnknownInput[]): readonly UnknownInput[] {
  const before: UnknownParameter[] = [];
  return inputs.map((input) => {
    const parameters = input.parameters.map((each) => ({ ...each, draw: (twinIn(before, each) ?? each).draw }));
    before.push(...input.parameters);
    return { ...input, parameters };
  });
}

/** The same value of the other workflow, as far known, among these. */
function twinIn(among: readonly UnknownParameter[], each: UnknownParameter): UnknownParameter | undefined {
  const there = twinPath(each.path);
  return among.find(
    ({ path, written, centre, standardDeviation }) =>
      path === there &&
      written === each.written &&
      centre === each.centre &&
      standardDeviation === each.standardDeviation,
  );
}

/** The central 95 % of what a value may be, written as the value is. */
export function knownWithin({ found, written, scale, centre, standardDeviation }: UnknownParameter): WrittenRange {
  const [low, high] = [-1, 1].map((side) => {
    const at = fromScale(scale, centre + side * CENTRAL_DEVIATES * standardDeviation);
    return movedTo(found.leaf, written, at, 3) ?? written;
  });
  return { low, high, text: `known within ${low} to ${high}` };
}

/** Names of the strategies that set one of an input's values themselves, and so keep theirs in every draw. */
export function keptBy(
  strategies: readonly { readonly name: string; readonly own: readonly OwnValue[] }[],
  { parameters }: UnknownInput,
): readonly string[] {
  return strategies.flatMap(({ name, own }) =>
    parameters.some(({ found }) => followedAt(own, found.path) === null) ? [name] : [],
  );
}
