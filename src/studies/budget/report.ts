import type { TerminalTable } from '../../report/answer.js';
import { ALWAYS } from '../../report/cautions.js';
import { estimateLine, numberText, percentText, SHARE } from '../../wording/numbers.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { againParts } from '../../report/study-facts.js';
import { htmlTable, type Table } from '../../report/table.js';
import { html, markdown, plainText, unbroken } from '../../report/text.js';
import { listed } from '../../wording/phrases.js';
import { BUDGET_CHARTS } from './charts.js';
import type { BudgetResult, BudgetStrategy, Request } from './results.js';
import { answerOf, itemsAsked, moneyAsked, proposalParagraphs, proposed, requestAt, timeAsked } from './words.js';

export const budgetReport = answerReport<BudgetResult>({
  files: {
    'proposal.md': proposalMarkdown,
    'proposal.txt': (result) => `${proposalParagraphs(result).map(plainText).join('\n\n')}\n`,
  },
  charts: () => BUDGET_CHARTS,
  shown: (result) => {
    const { notKnown, assumed } = result;
    const strategies = [proposed(result), ...result.strategies.filter((each) => each !== proposed(result))];
    const run = `${numberText(result.replications)} replications`;
    return {
      kicker: 'Time, tips and money to ask for',
      facts: planFacts(result.scenario, result.granted),
      answer: answerOf(result),
      warnings: result.warnings,
      run,
      terminal: {
        run,
        tables: () => tables(result, strategies),
      },
      above: [requestsSection(result, strategies)],
      below: [proposalSection(result)],
      intro:
        'Each replication plays the whole plan to its end with all at hand that it comes to need: tips wear, are contaminated and break by chance, and what is noticed decides what is taken again and what is replaced. What a share of the campaigns needs no more than is what suffices with that chance, if the values of the scenario are right.',
      method: [
        [
          'Replications',
          `${numberText(result.replications)} of every strategy, all with common random numbers; ${result.stopping}`,
        ],
        [
          'Intervals',
          `${numberText(result.level, SHARE)}, distribution-free, by order statistics (H. A. David and H. N. Nagaraja, Order Statistics, section 7.1); chances by Clopper and Pearson. What is asked for is the upper end of the interval, so it is a little more than the middle.`,
        ],
        ...(notKnown.length === 0
          ? []
          : [
              [
                'Not known',
                `Drawn anew in every campaign, so that the amounts hold random variation and parameter uncertainty together: ${listed(notKnown)}.`,
              ] as const,
            ]),
        [
          'Assumed',
          `${numberText(assumed.values)} of ${numberText(assumed.of)} values have no source; compare lists them all and tries their ranges.`,
        ],
      ],
      rest: 'The text for a proposal is in `proposal.md` and, for pasting into a form, in `proposal.txt`; all numbers are in `summary.json`',
    };
  },
});

/** What to ask for with each strategy, then with each for other probabilities. */
function tables(result: BudgetResult, strategies: readonly BudgetStrategy[]): readonly TerminalTable[] {
  const { chance } = result.proposal;
  const columns = [{ label: 'time' }, { label: 'to order' }, { label: 'cost at most' }];
  const cells = (request: Request) => [
    timeAsked(result, request),
    itemsAsked(request, result.scenario),
    moneyAsked(result, request),
  ];
  return [
    {
      title: `Each suffices by itself in ${percentText(chance)} of campaigns`,
      table: {
        columns: [{ label: 'strategy' }, ...columns],
        rows: strategies.map((strategy) => [strategy.name, ...cells(requestAt(strategy, chance))]),
      },
    },
    ...strategies.map(({ name, requests }) => ({
      title: name,
      table: {
        columns: [{ label: 'suffices in' }, ...columns],
        rows: requests.map((request) => [numberText(request.chance, SHARE), ...cells(request)]),
      },
    })),
  ];
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
