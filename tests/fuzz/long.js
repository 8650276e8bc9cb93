/**
 * Fuzzes one target after the other, each in a process of its own with little memory, and records what came of it:
 *
 *     npm run fuzz -- SEED CASES DATE [TARGET]
 *
 * writes the rows of RECORD.md anew, of one target only where one is named. A short form is among the tests (short.ts). What
 * breaks a promise, or becomes what no case before did, is kept in corpus/, made as small as can be, and comes first from then on.
 */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { clearTimeout, setTimeout } from 'node:timers';
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';
import { format, resolveConfig } from 'prettier';

const MEGABYTES = 512;
/** Far more than a case may take, and than a busy machine needs to begin; who says nothing for so long hangs. */
const SILENCE = 600_000;

const beside = (name) => fileURLToPath(new URL(name, import.meta.url));
const record = beside('RECORD.md');
const [seed, cases, date, only] = process.argv.slice(2);
if (!/^\d+$/.test(seed ?? '') || !/^\d+$/.test(cases ?? '') || date === undefined) {
  console.error('Give a seed, how many cases, and a date: npm run fuzz -- 1 20000 2031-05-17');
  process.exit(2);
}

const { module } = await runnerImport(beside('targets.ts'), { root: beside('../..'), logLevel: 'error' });
if (process.send !== undefined) await fuzzHere();
else await fuzzAll();

/** In the process that does it: what came of one target goes to the one that asked. */
async function fuzzHere() {
  const target = module.TARGETS.find(({ name }) => name === only);
  let told = 0;
  const onCase = () => {
    if (Date.now() - told < 1000) return;
    told = Date.now();
    process.send('at work');
  };
  const result = await target.runAndKeep({ seed: Number(seed), cases: Number(cases), onCase });
  const megabytes = process.resourceUsage().maxRSS / 1024;
  process.send({ ...result, megabytes }, () => process.disconnect());
}

function fuzzApart(name) {
  return new Promise((resolve) => {
    const args = [`--max-old-space-size=${MEGABYTES}`, beside('long.js'), seed, cases, date, name];
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
    let result = { failure: 'ended without a word' };
    const watch = () =>
      setTimeout(() => {
        result = { failure: `was silent for ${SILENCE / 1000} s` };
        child.kill('SIGKILL');
      }, SILENCE);
    let silence = watch();
    child.on('message', (said) => {
      clearTimeout(silence);
      silence = watch();
      if (said !== 'at work') result = said;
    });
    child.on('close', () => {
      clearTimeout(silence);
      resolve(result);
    });
  });
}

async function fuzzAll() {
  const rows = recorded();
  for (const { name, promise } of module.TARGETS.filter(({ name }) => only === undefined || name === only)) {
    const result = await fuzzApart(name);
    if (result.failure !== null) {
      console.error(`${name}: NOT KEPT: ${promise}\n${result.failure}`);
      process.exitCode = 1;
      continue;
    }
    const became = Object.entries(result.became).sort(([a], [b]) => (a < b ? -1 : 1));
    const words = became.map(([word, count]) => `${word} ${count}`).join(', ');
    rows.set(
      name,
      `| ${name} | ${promise} | ${date} | ${seed} | ${result.cases} | ${words} | ${result.slowest.toFixed(2)} | ${Math.round(result.megabytes)} |`,
    );
    console.error(rows.get(name));
    await write(rows);
  }
}

/** The rows of earlier runs, by target. */
function recorded() {
  const lines = existsSync(record) ? readFileSync(record, 'utf8').split('\n') : [];
  const rows = lines
    .filter((line) => line.startsWith('| '))
    .map((line) => line.replace(/ +\|/g, ' |').replace(/\| +/g, '| '));
  return new Map(rows.slice(2).map((row) => [row.split(' | ')[0].slice(2), row]));
}

async function write(rows) {
  const known = module.TARGETS.map(({ name }) => rows.get(name)).filter((row) => row !== undefined);
  const text = `# What fuzzing came to

Written by \`npm run fuzz -- SEED CASES DATE\`. Each row is one target, whose cases follow from the seed; a case that breaks the
promise would stand on the terminal, made as small as can be, and its row would not be written. A case may take 2 s of
a processor, a number that is none (NaN, infinity) may stand nowhere in what is said, and the process has ${MEGABYTES} MB for its data.
Cases that take long are fewer.

| target | promise | date | seed | cases | what became of them | slowest, s | most memory, MB |
| --- | --- | --- | --: | --: | --- | --: | --: |
${known.join('\n')}
`;
  writeFileSync(record, await format(text, { ...(await resolveConfig(record)), filepath: record }));
}
