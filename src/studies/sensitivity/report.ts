import { measureName } from '../../analysis/words.js';
import { estimateLine, numberText, SHARE } from '../../wording/numbers.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { firstFitting } from '../../report/terminal-columns.js';
import { sensitivityCsv } from './csv.js';
import type { Sensitivity } from './results.js';
import { sensitivityScale, shortSwingTables } from './tables.js';
import { tornadoChart } from './tornado-chart.js';
import { weightsChart } from './weights-chart.js';

export const sensitivityReport = answerReport<Sensitivity>({
  files: { 'sensitivity.csv': sensitivityCsv },
  charts: () => [tornadoChart, weightsChart],
  shown: (result) => {
    const { measure, atOnce } = result;
    const [first, second] = result.between;
    const level = numberText(result.level, SHARE);
    const run = `${numberText(result.campaigns)} campaigns`;
    const here = estimateLine(result.difference, sensitivityScale(result), 'difference');
    const title = `“${second}” − “${first}” in ${measureName(measure)}: ${here} as the values stand, and at range limits (intervals in the report)`;
    return {
      kicker: `Which values decide between two strategies, by ${measureName(measure)}`,
      facts: planFacts(result.scenario, null),
      answer: result.answer,
      warnings: result.warnings,
      run,
      terminal: {
        run: `${run}, ${level} intervals`,
        tables: (columns) => [{ title, table: firstFitting(shortSwingTables(result), columns) }],
      },
      intro:
        'Each value is put to both range limits with all others as they stand, with common random numbers; where the difference has another sign there, settings are put in between until the place at which it reverses is known. Then all values are drawn at once, again and again, and regressions on what was drawn share out the variance of the difference between them.',
      method: [
        ['Compared', `“${second}” − “${first}”, ${measureName(measure)}`],
        [
          'Values tried',
          `${numberText(result.swings.length)}: ${result.isAll ? 'all that are not chosen' : 'those that are only assumed'}, over the range that the scenario gives, or else that of the value’s kind (the schema’s), or else ×1.5 and ÷1.5`,
        ],
        ['Campaigns', `${numberText(result.campaigns)}; ${result.stopping}`],
        [
          'Intervals',
          `${level}, two-sided, each by itself. At an end it comes of the difference as the values stand and of replications run in both places with common random numbers (a control variate, its coefficient estimated). A place of reversal inverts the paired t interval (E. C. Fieller, J. R. Stat. Soc. B 16, 175, 1954).`,
        ],
        ...(atOnce === null
          ? []
          : [
              [
                'Sobol’ indices',
                `first-order and total, from ${numberText(atOnce.draws)} draws with ${numberText(atOnce.replicationsPerDraw)} replications each, by cross-fitted regression on ranks, with the noise of replications taken out (E. Plischke, E. Borgonovo and C. L. Smith, Eur. J. Oper. Res. 226, 536, 2013); a range holds the middle 95 % of a normal, of logarithms for amounts`,
              ] as const,
            ]),
      ],
      rest: 'All numbers are in `summary.json` and `sensitivity.csv`',
    };
  },
});
