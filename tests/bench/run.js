// npm run bench: measures how fast it is, and writes RESULTS.md and baselines.json beside this file. Takes a few minutes
// of an otherwise idle machine; with --long, some more.
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';

const beside = (name) => fileURLToPath(new URL(name, import.meta.url));
const { module } = await runnerImport(beside('bench.ts'), { root: beside('../..'), logLevel: 'error' });
await module.bench(process.argv.includes('--long'));
