import { byTime } from '../../analysis/worth/words.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { htmlTable } from '../../report/table.js';
import { html } from '../../report/text.js';
import {
  RECORDED,
  recordsTable,
  SAVES,
  shortTable,
  strategiesTable,
  timeAndCost,
  valuesTable,
} from '../../report/worth-tables.js';
import { numberText, percentText } from '../../wording/numbers.js';
import { worthChart } from './chart.js';
import { worthCsv } from './csv.js';
import type { WorthSummary } from './results.js';

export const worthReport = answerReport<WorthSummary>({
  files: { 'worth.csv': worthCsv },
  charts: () => [worthChart],
  shown: (result) => {
    const { draws, replicationsPerDraw, strategies } = result;
    const { currency } = result.scenario;
    const level = percentText(result.confidence.level);
    const run = `${numberText(draws * replicationsPerDraw * strategies.length)} campaigns`;
    return {
      kicker: 'What to measure first, and what that is worth',
      facts: planFacts(result.scenario, null),
      answer: result.answer,
      warnings: result.warnings,
      run,
      terminal: {
        run: `${run}, ${level} intervals`,
        tables: () => [
          {
            title: 'What knowing it before choosing is worth',
            table: shortTable(result, byTime(result, result.confidence.level)),
          },
        ],
      },
      above: [
        tableSection('choice', 'The choice now', htmlTable(strategiesTable(result, currency), 'Means over all draws')),
      ],
      below: [
        tableSection('values', 'Knowing a value exactly', htmlTable(valuesTable(result, currency), SAVES)),
        tableSection('records', 'More records', htmlTable(recordsTable(result, timeAndCost(currency)), RECORDED)),
      ],
      intro:
        'All that is uncertain or only assumed is drawn at random again and again, the same for all strategies, and each draw is run in a few replications. Regressions of the differences between strategies on the ranks of what was drawn say what one would expect of each, were it known.',
      method: [
        ['Draws', `${numberText(draws)}, ${numberText(replicationsPerDraw)} replications of each`],
        [
          'Uncertain',
          'values with an uncertainty as it is declared; others that are only assumed so that the range holds the middle 95 % of a normal, of logarithms for amounts',
        ],
        [
          'Value of information',
          `expected value of partial perfect information by regression on ranks, cross-fitted in ten parts (M. Strong, J. E. Oakley and A. Brennan, Med. Decis. Making 34, 311, 2014), of sample information by regression on summaries of made records (M. Strong et al., Med. Decis. Making 35, 570, 2015); ${level} intervals`,
        ],
        [
          'Sobol’ indices',
          'first-order and total, from the same draws and regressions, with the noise of replications taken out (E. Plischke, E. Borgonovo and C. L. Smith, Eur. J. Oper. Res. 226, 536, 2013)',
        ],
        ['Writing down', 'two minutes a tip, one a timing (common practice, no source)'],
      ],
      rest: 'All numbers are in `summary.json` and `worth.csv`',
    };
  },
});

function tableSection(id: string, title: string, table: string): string {
  return `<section aria-labelledby="${id}">\n<h2 id="${id}">${html(title)}</h2>\n${table}\n</section>`;
}
