// Writes the logs under scenarios/logs/, which are of our own invention, from the parameters with which they are made.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';

const folder = fileURLToPath(new URL('../../scenarios/logs', import.meta.url));
const { module } = await runnerImport(fileURLToPath(new URL('make-log.ts', import.meta.url)));
mkdirSync(folder, { recursive: true });
writeFileSync(join(folder, 'tip-log.csv'), module.madeLog());
writeFileSync(join(folder, 'tip-radii.csv'), module.madeRadii());
const { module: drift } = await runnerImport(fileURLToPath(new URL('made-drift.ts', import.meta.url)));
writeFileSync(join(folder, 'drift-readings.csv'), drift.madeDriftReadings());
