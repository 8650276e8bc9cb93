import { z } from 'zod';
import { entriesOf } from './leaf-walk.js';
import type { Path } from './places.js';
import { movedTo, type WrittenRange } from './ranges.js';
import { sharedSchema } from './schema/scenario.js';
import { type Uncertain, uncertainties } from './schema/uncertainty.js';
import { entryOf, type RawMap, type Schema } from './schema-walk.js';
import { overlay } from './strategies.js';
import { twinPath } from './twins.js';
import { readCarrier } from './uncertainty-reading.js';
import { CENTRAL_DEVIATES, fromScale } from './uncertainty-scale.js';
import { startsWith } from './value-path.js';
import type { Carrier, UnknownInput, UnknownParameter } from './unknown-input.js';

/** Every map of a scenario (all defaults filled in) that carries an uncertainty, in the schema's order. */
export function carriersIn(document: RawMap): readonly Carrier[] {
  return carriersBelow(sharedSchema, document, []);
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

/** Every uncertainty of a scenario without fault, all defaults filled in. */
export function unknownInputs(document: RawMap): readonly UnknownInput[] {
  const inputs = carriersIn(document).flatMap((carrier) => {
    const reading = readCarrier(carrier, document);
    return reading.ok ? [reading.input] : [];
  });
  const before: UnknownParameter[] = [];
  return inputs.map((input) => {
    const parameters = input.parameters.map((each) => ({ ...each, draw: (twinIn(before, each) ?? each).draw }));
    before.push(...input.parameters);
    return { ...input, parameters };
  });
}

/** The same value of the other workflow, as far known, among these: the two are one unknown, and so drawn as one. */
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
    return movedTo(found.leaf, written, at, 3)?.written ?? written;
  });
  return { low, high, text: `known within ${low} to ${high}` };
}

/** Names of the strategies that set one of an input's values themselves, and so keep theirs in every draw. */
export function keptBy(document: RawMap, { parameters }: UnknownInput): readonly string[] {
  const strategies = entryOf(document, 'strategies');
  const names = Array.isArray(strategies) ? strategies.map((strategy) => entryOf(strategy, 'name')) : [];
  return names.flatMap((name, index) => {
    const { overrides } = overlay(document, index);
    const isKept = overrides.some(({ target }) => parameters.some(({ found }) => startsWith(found.path, target)));
    return isKept && typeof name === 'string' ? [name] : [];
  });
}
