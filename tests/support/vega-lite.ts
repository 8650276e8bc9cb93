import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { expect } from 'vitest';

const path = createRequire(import.meta.url).resolve('vega-lite/vega-lite-schema.json');
const schema: unknown = JSON.parse(readFileSync(path, 'utf8'));
if (typeof schema !== 'object' || schema === null) throw new Error('no schema');
const validate = new Ajv({ strict: false, allErrors: false, validateFormats: false }).compile(schema);

/** Holds what is to be drawn to the schema of Vega-Lite. */
export function expectByRules(spec: unknown): void {
  expect(validate(spec), JSON.stringify(validate.errors?.slice(0, 2))).toBe(true);
}
