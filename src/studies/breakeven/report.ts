import { measureName } from '../../analysis/words.js';
import type { BreakEven } from './results.js';
import type { TerminalTable } from '../../report/answer.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { nameIn } from '../../scenario/describe.js';
import { htmlTable } from '../../report/table.js';
import { curveChart } from './curve-chart.js';
import { breakEvenCsv } from './csv.js';
import { planeChart } from './plane-chart.js';
import { curveTable, planeTable } from './tables.js';

export const breakEvenReport = answerReport<BreakEven>({
  files: { 'breakeven.csv': breakEvenCsv },
  charts: ({ lines, across }) => (lines.length === 0 ? [] : [across === null ? curveChart : planeChart]),
  shown: (result) => {
    const [first, second] = result.between;
    const level = numberText(result.level, SHARE);
    const run = `${numberText(result.campaigns)} campaigns`;
    return {
      kicker: `Where two strategies are equal in ${measureName(result.measure)}`,
      facts: planFacts(result.scenario, null),
      answer: result.answer,
      warnings: result.warnings,
      run,
      terminal: { run: `${run}, ${level} intervals`, tables: () => tables(result) },
      below: tables(result).map(tried),
      intro:
        'At every setting both strategies play the whole plan with common random numbers, replication by replication; what is compared are the paired differences. Where these are clear with opposite signs, settings are put in between until the place is known well enough. A break-even’s interval is where the interval of the difference holds zero. Two break-evens closer together than the settings tried may be missed.',
      method: [
        ['Compared', `“${second}” − “${first}”, ${measureName(result.measure)}`],
        ...[result.range, ...(result.across === null ? [] : [result.across])].map(
          ({ path, description, low, high, unit, isLog }) =>
            [
              path,
              `${description}; from ${String(low)} to ${String(high)}${unit === '' ? '' : ` ${unit}`}${isLog ? ', in equal ratios' : ''}`,
            ] as const,
        ),
        ['Campaigns', `${numberText(result.campaigns)}; ${result.stopping}`],
        [
          'Intervals',
          `${level}, two-sided. That of a break-even inverts the paired t interval, linear between settings (E. C. Fieller, J. R. Stat. Soc. B 16, 175, 1954); those of differences hold for all settings together (Bonferroni).`,
        ],
      ],
      rest: 'All numbers are in `summary.json` and `breakeven.csv`',
    };
  },
});

function tables(result: BreakEven): readonly TerminalTable[] {
  const [first, second] = result.between;
  if (result.across !== null) {
    const title = `Where “${first}” and “${second}” are equal in ${measureName(result.measure)}`;
    return [{ title, table: planeTable(result) }];
  }
  const title = `“${second}” − “${first}” by “${nameIn(result.range.description)}”`;
  return result.lines.map((line) => ({ title, table: curveTable(result, line), isAlong: true }));
}

function tried({ title, table }: TerminalTable, place: number): string {
  return `<section aria-labelledby="table-${String(place)}">
<h2 id="table-${String(place)}">What was tried</h2>
${htmlTable(table, title)}
</section>`;
}
