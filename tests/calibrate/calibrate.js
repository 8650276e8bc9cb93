/**
 * Records how often intervals hold the truth, where the truth is known:
 *
 *     npm run calibrate -- SEED DATE [PART[=REPEATS]…]
 *
 * PART is compare, breakeven, budget, stopping or lives; all of them unless named. Writes record.json and RECORD.md here, and for
 * lives tests/survival/coverage.md. Parts that are not run stay as they were recorded. Too long for the tests; short runs are among
 * them (calibrate.test.ts, tests/survival/coverage.long.test.ts).
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { runnerImport } from 'vite';

const beside = (name) => fileURLToPath(new URL(name, import.meta.url));
const { module } = await runnerImport(beside('calibrate.ts'), { root: beside('../..'), logLevel: 'error' });
const { calibrate, livesText, markdownOf, PART_NAMES, readRecord } = module;

const PARTS = [...PART_NAMES, 'lives'];
const [seed, date, ...named] = process.argv.slice(2);
const asked = (named.length === 0 ? PARTS : named).map((text) => text.split('='));
const unknown = asked.filter(([name, repeats]) => !PARTS.includes(name) || !/^[1-9]\d*$/u.test(repeats ?? '1'));
if (seed === undefined || !/^\d{4}-\d{2}-\d{2}$/u.test(date ?? '') || unknown.length > 0) {
  console.error(
    `Give a seed, a date and any of ${PARTS.join(', ')}: npm run calibrate -- SEED 2026-01-31 [PART[=REPEATS]…]`,
  );
  process.exit(2);
}

async function write(name, text, parser) {
  const options = await resolveConfig(beside(name));
  writeFileSync(beside(name), await format(text, { ...options, parser }));
}

/** A line every ten seconds or so. */
function progressOf(name) {
  const start = Date.now();
  let [done, said] = [0, start];
  return () => {
    done += 1;
    if (Date.now() - said < 10_000) return;
    said = Date.now();
    console.error(`${name}: ${done} repeats, ${Math.round((said - start) / 1000)} s`);
  };
}

for (const [name, repeats] of asked) {
  if (name === 'lives') {
    await write('../survival/coverage.md', livesText(seed, date, progressOf(name)), 'markdown');
    continue;
  }
  const part = calibrate(name, { seed, date, repeats: repeats && Number(repeats) }, progressOf(name));
  const before = existsSync(beside('record.json')) ? readRecord(readFileSync(beside('record.json'), 'utf8')) : {};
  const record = { ...before, [name]: part };
  await write('record.json', JSON.stringify(record), 'json');
  await write('RECORD.md', markdownOf(record), 'markdown');
}
