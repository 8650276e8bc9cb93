/**
 * Records the coverage of the profile intervals by number of events, over 1000 made logs for each law and number:
 *
 *     npm run coverage-of-lives -- SEED DATE
 *
 * writes tests/survival/coverage.md. Too long for the tests; a shorter run is among them (coverage.test.ts).
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';
import { format, resolveConfig } from 'prettier';

const EVENTS = [3, 5, 10, 20, 50];
const LOGS = 1000;

const [seed, date] = process.argv.slice(2);
if (seed === undefined || date === undefined) {
  console.error('Give a seed and a date: npm run coverage-of-lives -- SEED DATE');
  process.exit(2);
}

const beside = (name) => fileURLToPath(new URL(name, import.meta.url));
const { module } = await runnerImport(beside('coverage.ts'), { root: beside('../..'), logLevel: 'error' });
const { CENSORED_PER_EVENT, MADE_WITH, coverageOf } = module;

const percent = (part, whole) => (whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`);
const rows = [];
for (const life of MADE_WITH) {
  for (const events of EVENTS) {
    for (const one of coverageOf(life, events, LOGS, seed)) {
      const { law, parameter, fitted, covered, open } = one;
      rows.push(
        `| ${law} | ${parameter} | ${events} | ${fitted} | ${percent(covered, fitted)} | ${percent(open, fitted)} |`,
      );
    }
    console.error(`${life.law}, ${events} events`);
  }
}

const made = MADE_WITH.map(({ law, ...values }) => {
  const written = Object.entries(values).map(([name, value]) => `${name} ${value}`);
  return `- ${law}: ${written.join(', ')}`;
});
const text = `# How often profile intervals at 95 % hold the truth

Written by \`npm run coverage-of-lives -- ${seed} ${date}\`. For each row ${LOGS} logs were made, tips one after the other until so many
had failed, about ${CENSORED_PER_EVENT} taken off sound for each that failed, of lives

${made.join('\n')}

With ${LOGS} logs a coverage of 95 % is seen to ± 1.4 %. Logs whose likelihood has no top, as where all events come close together
and late, are left out; an end is open where the likelihood does not set it.

| law | parameter | events | logs with a fit | coverage | an end open |
| --- | --- | --: | --: | --: | --: |
${rows.join('\n')}
`;
const target = beside('coverage.md');
writeFileSync(target, await format(text, { ...(await resolveConfig(target)), filepath: target }));
