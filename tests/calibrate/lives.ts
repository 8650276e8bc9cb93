import { CENSORED_PER_EVENT, coverageOf, MADE_WITH } from '../survival/coverage.js';

const EVENTS = [3, 5, 10, 20, 50];
const LOGS = 1000;

function percent(part: number, whole: number): string {
  return whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`;
}

/** tests/survival/coverage.md: coverage of the profile intervals by number of events, over bootstrap samples. */
export function livesText(seed: string, date: string, onLogs: () => void): string {
  const rows = MADE_WITH.flatMap((life) =>
    EVENTS.flatMap((events) => {
      const found = coverageOf(life, events, LOGS, seed);
      onLogs();
      return found.map(
        ({ distribution, parameter, fitted, covered, open }) =>
          `| ${distribution} | ${parameter} | ${events} | ${fitted} | ${percent(covered, fitted)} | ${percent(open, fitted)} |`,
      );
    }),
  );
  const made = MADE_WITH.map(({ distribution, ...values }) => {
    const written = Object.entries(values).map(([name, value]) => `${name} ${value}`);
    return `- ${distribution}: ${written.join(', ')}`;
  });
  return `# How often profile intervals at 95 % hold the truth

Written by \`npm run calibrate -- ${seed} ${date} lives\`. For each row ${LOGS} logs were made, tips one after the other until so many
had failed, about ${CENSORED_PER_EVENT} taken off sound for each that failed, of lives

${made.join('\n')}

With ${LOGS} logs a coverage of 95 % is seen to ± 1.4 %. Logs whose likelihood has no top, as where all events come close together
and late, are left out; an end is open where the likelihood does not set it.

| distribution | parameter | events | logs with a fit | coverage | an end open |
| --- | --- | --: | --: | --: | --: |
${rows.join('\n')}
`;
}
