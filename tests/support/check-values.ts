import { readFileSync } from 'node:fs';
import { z } from 'zod';

const cases = z
  .array(z.looseObject({ id: z.string(), inputs: z.unknown(), expected: z.unknown() }))
  .parse(JSON.parse(readFileSync(new URL('../../shared/check-values.json', import.meta.url), 'utf8')));

/** A case of shared/check-values.json, its inputs and expected values checked against the shapes a test wants. */
export function publishedCase<Inputs extends z.ZodType, Expected extends z.ZodType>(
  id: string,
  inputs: Inputs,
  expected: Expected,
): { inputs: z.output<Inputs>; expected: z.output<Expected> } {
  const found = cases.find((one) => one.id === id);
  if (found === undefined) throw new Error(`shared/check-values.json has no case ${id}`);
  return { inputs: inputs.parse(found.inputs), expected: expected.parse(found.expected) };
}

/** Relative departure of a value from the one expected. */
export function departure(value: number, expected: number): number {
  return value === expected ? 0 : Math.abs(value - expected) / Math.abs(expected);
}
