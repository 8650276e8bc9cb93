import { writeFileSync } from 'node:fs';
import { scenarioJsonSchema } from '../scenario/json-schema.js';

/** Writes the JSON Schema that editors use, from the schema in the code; a test holds the committed file to it. */
writeFileSync(
  new URL('../../shared/scenario.schema.json', import.meta.url),
  `${JSON.stringify(scenarioJsonSchema(), null, 2)}\n`,
);
