import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { scenarioJsonSchema } from '../../src/scenario/json-schema.js';
import { loadScenario } from '../../src/scenario/load.js';
import { filled, altered, SAMPLE } from './sample.js';

const committed: unknown = JSON.parse(
  readFileSync(new URL('../../shared/scenario.schema.json', import.meta.url), 'utf8'),
);
const accepts = new Ajv({ strict: false, allErrors: true }).compile(scenarioJsonSchema());

describe('the JSON Schema for editors', () => {
  it('is committed as the code makes it', () => {
    expect(committed).toEqual(JSON.parse(JSON.stringify(scenarioJsonSchema())));
  });

  it('accepts what loads, with all defaults left out and with all filled in', () => {
    expect(accepts(parse(SAMPLE))).toBe(true);
    expect(accepts(filled(SAMPLE))).toBe(true);
  });

  it.each([
    ['an unknown key', 'lines: 128', 'lnes: 128'],
    ['a quantity without unit', 'size: 5 um', 'size: 5'],
    ['money without currency', 'price: 60 EUR', 'price: "60"'],
    ['a number out of range', 'regions: 4', 'regions: 0'],
    ['a word unheard of', 'workflow: hop', 'workflow: hops'],
    ['a key in a step', 'prepare: 45 min', 'prepare: {usal: 45 min}'],
  ])('refuses %s, as loading does', (_, from, to) => {
    const text = altered([from, to]);
    expect(accepts(parse(text))).toBe(false);
    expect(loadScenario(text).ok).toBe(false);
  });

  it('tells an editor what a value means, its default, where that comes from, and an example with its unit', () => {
    const text = JSON.stringify(committed);
    expect(text).toContain(
      'Exchange the probe by hand; in vacuum with the transfer. Default: usual practice, no source',
    );
    expect(text).toContain('"default":{"usual":"3 min","p90":"5 min"}');
    expect(text).toContain('"examples":["10 min"]');
  });
});
