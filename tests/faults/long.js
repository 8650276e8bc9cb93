/**
 * Kills every command that writes a report at random moments, and records what was found:
 *
 *     npm run faults -- TRIES DATE [COMMAND]
 *
 * writes RECORD.md. Half of the moments lie anywhere in the run, half while it writes; every other signal is SIGTERM
 * or SIGKILL. A short form is among the tests (killing.test.ts).
 */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { runnerImport } from 'vite';

const beside = (name) => fileURLToPath(new URL(name, import.meta.url));
const [tries, date, only] = process.argv.slice(2);
if (!/^\d+$/.test(tries ?? '') || date === undefined) {
  console.error('Give how many tries, and a date: npm run faults -- 100 2031-05-17');
  process.exit(2);
}
const { module } = await runnerImport(beside('killing.ts'), { root: beside('../..'), logLevel: 'error' });
const record = beside('RECORD.md');
const rows = recorded();

for (const deed of module.DEEDS.filter(({ name }) => only === undefined || name === only)) {
  const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-faults-'));
  const found = {};
  try {
    const scene = new module.Scene(deed, folder);
    await scene.prepare();
    for (let i = 0; i < Number(tries); i += 1) {
      const moment =
        i % 2 === 0
          ? { of: 'start', after: Math.random() * scene.milliseconds }
          : { of: 'writing', after: Math.random() * 40 };
      const state = await scene.kill(i % 4 < 2 ? 'SIGKILL' : 'SIGTERM', moment);
      found[state] = (found[state] ?? 0) + 1;
    }
    const words = Object.entries(found)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([state, count]) => `${state} ${count}`)
      .join('; ');
    rows.set(deed.name, `| ${deed.name} | ${date} | ${tries} | ${words} |`);
    console.error(rows.get(deed.name));
  } catch (error) {
    console.error(`${deed.name}: after ${JSON.stringify(found)}: ${error.message}`);
    process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
await write();

/** The rows of earlier runs, by command. */
function recorded() {
  const lines = existsSync(record) ? readFileSync(record, 'utf8').split('\n') : [];
  const kept = lines
    .filter((line) => line.startsWith('| '))
    .map((line) => line.replace(/ +\|/g, ' |').replace(/\| +/g, '| '));
  return new Map(kept.slice(2).map((row) => [row.split(' | ')[0].slice(2), row]));
}

async function write() {
  const known = module.DEEDS.map(({ name }) => rows.get(name)).filter((row) => row !== undefined);
  const text = `# What killing came to

Written by \`npm run faults -- TRIES DATE\`. Every try has an old report with three files of a person's own in its folder, and is
killed while a new one is made: half of the tries anywhere in the run, half within 40 ms after it has begun to write, by
SIGKILL and SIGTERM in turn. A report that is neither the old one nor the new one, a file of the person's that is
touched, or leftovers that the next run does not clear away would be an error and no row. “Set aside”: between two
renames the old report lies whole under a hidden name beside its own, and the next run puts things right. “What was
complete”: a command that is asked to end writes that into a folder of its own, beside the report.

| command | date | tries | found after the kill |
| --- | --- | --: | --- |
${known.join('\n')}
`;
  writeFileSync(record, await format(text, { ...(await resolveConfig(record)), filepath: record }));
}
