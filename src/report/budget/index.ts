/** All files of a budget's report, by name. Nothing is written here. */

import { isByHand } from '../../study/by-hand.js';
import type { BudgetResult, BudgetStrategy } from '../../study/budget/results.js';
import { answerBox, answerText } from '../answer.js';
import { ALWAYS } from '../cautions.js';
import { estimateLine, numberText, SHARE } from '../format.js';
import { prettyJson } from '../json.js';
import { picturesSection, planFacts, studyPage } from '../page.js';
import { cautionsSection, citation, howComputedSection, inCharts } from '../page/method.js';
import { type Draw, drawCharts } from '../pictures.js';
import { againParts, recordFacts } from '../study-facts.js';
import { htmlTable, type Table } from '../table.js';
import { html, listed, markdown, plainText, unbroken } from '../text.js';
import type { Styles } from '../terminal.js';
import { BUDGET_CHARTS } from './charts.js';
import { answerOf, itemsAsked, moneyAsked, proposalParagraphs, proposed, timeAsked } from './words.js';

export async function budgetFiles(result: BudgetResult, draw?: Draw | null): Promise<Map<string, string>> {
  const pictures = await drawCharts(BUDGET_CHARTS, result, draw);
  const files = new Map(pictures.files);
  files.set('report.html', page(result, pictures.figures));
  files.set('summary.json', prettyJson(result));
  files.set('proposal.md', proposalMarkdown(result));
  files.set('proposal.txt', `${proposalParagraphs(result).map(plainText).join('\n\n')}\n`);
  return files;
}

function page(result: BudgetResult, figures: readonly string[]): string {
  const strategies = [proposed(result), ...result.strategies.filter((each) => each !== proposed(result))];
  return studyPage({
    kicker: 'Time, tips and money to ask for',
    record: result,
    facts: planFacts(result.scenario, result.granted),
    sections: [
      answerBox(answerOf(result), result.warnings),
      requestsSection(result, strategies),
      picturesSection(figures),
      proposalSection(result),
      cautionsSection(result.scenario),
      howComputedSection({
        isStopped: isByHand(result.stopping),
        intro:
          'Each replication plays the whole plan to its end with all at hand that it comes to need: tips blunt, foul and break by chance, and what is noticed decides what is taken again and what is replaced. What a share of the campaigns needs no more than is what suffices with that chance, if the values of the scenario are right.',
        facts: [
          [
            'Replications',
            `${numberText(result.replications)} of every strategy, all on the same luck; ${result.stopping}`,
          ],
          [
            'Intervals',
            `${numberText(result.level, SHARE)}, distribution-free, by order statistics (H. A. David and H. N. Nagaraja, Order Statistics, section 7.1); chances by Clopper and Pearson. What is asked for is the upper end of the interval, so it is a little more than the middle.`,
          ],
          ...(result.notKnown.length === 0
            ? []
            : [
                [
                  'Not known',
                  `Drawn anew in every campaign, so that the amounts hold luck and not-knowing both: ${listed(result.notKnown)}.`,
                ] as const,
              ]),
          [
            'Assumed',
            `${numberText(result.assumed.values)} of ${numberText(result.assumed.of)} values have no source; compare lists them all and tries their ranges.`,
          ],
          ...recordFacts(result),
        ],
        command: result.command,
        cite: `${citation(result, `${numberText(result.replications)} replications`)} The text for a proposal is in \`proposal.md\` and, for pasting into a form, in \`proposal.txt\`; all numbers are in \`summary.json\`${inCharts(result.stopping)}.`,
      }),
    ],
  });
}

/** What to ask for at each chance, a row each. */
function requestsTable(result: BudgetResult, strategies: readonly BudgetStrategy[]): Table {
  return {
    columns: [
      { label: 'Strategy' },
      { label: 'Chance', numeric: true },
      { label: 'Time', numeric: true },
      { label: 'To order' },
      { label: 'Cost at most', numeric: true },
      { label: 'All together suffice', numeric: true },
    ],
    rows: strategies.flatMap((strategy) =>
      strategy.requests.map((request) => [
        strategy.name,
        numberText(request.chance, SHARE),
        timeAsked(result, request),
        itemsAsked(request, result.scenario),
        moneyAsked(result, request),
        request.together === null ? '–' : estimateLine(request.together, SHARE),
      ]),
    ),
  };
}

const NOTE =
  'Each amount suffices by itself with the chance of its row; the last column says how often all of them suffice together. ' +
  'Amounts are rounded up: to whole sessions where there are bookings, to whole tips, chips and specimens.';

function requestsSection(result: BudgetResult, strategies: readonly BudgetStrategy[]): string {
  const caption = `What suffices with a chance, over ${numberText(result.replications)} replications`;
  return `<section aria-labelledby="requests">
<h2 id="requests">What to ask for</h2>
${htmlTable(requestsTable(result, strategies), caption)}
<p class="note">${html(NOTE)}</p>
</section>`;
}

function proposalSection(result: BudgetResult): string {
  const paragraphs = proposalParagraphs(result).map((text) => `<p>${html(unbroken(text))}</p>`);
  return `<section aria-labelledby="proposal">
<h2 id="proposal">Text for a proposal</h2>
${paragraphs.join('\n')}
</section>`;
}

function proposalMarkdown(result: BudgetResult): string {
  const parts = [
    `# ${markdown(result.scenario.title)}: instrument time`,
    ...proposalParagraphs(result).map(markdown),
    `- ${markdown(ALWAYS)}`,
    ...againParts(result),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** Text for the terminal: what to ask for at each chance, and the answer last. */
export function budgetText(result: BudgetResult, styles: Styles, columns?: number): string {
  const tables = result.strategies.map((strategy) => ({
    title: strategy.name,
    table: {
      columns: [{ label: 'chance' }, { label: 'time' }, { label: 'to order' }, { label: 'cost at most' }],
      rows: strategy.requests.map((request) => [
        numberText(request.chance, SHARE),
        timeAsked(result, request),
        itemsAsked(request, result.scenario),
        moneyAsked(result, request),
      ]),
    },
  }));
  const run = `${numberText(result.replications)} replications; each amount suffices by itself with the chance of its row`;
  const { warnings } = result;
  return answerText({ record: result, run, tables, warnings, answer: answerOf(result) }, styles, columns);
}
