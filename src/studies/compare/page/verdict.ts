import type { Assumption, Summary } from '../../../analysis/results.js';
import { measureName } from '../../../analysis/words.js';
import { leadTimeSentences } from '../../../report/lead-time.js';
import { differenceScale } from '../../../report/measure-scale.js';
import { verdictBox } from '../../../report/page/verdict.js';
import { framed, htmlTable, type Table } from '../../../report/table.js';
import { html, unbroken } from '../../../report/text.js';
import { twinOf } from '../../../scenario/twins.js';
import { estimateLine, numberText, PLAIN, SHARE, signedText } from '../../../wording/numbers.js';
import { capital } from '../../../wording/phrases.js';
import { nameOf } from '../verdict.js';
import { furtherTable, HEADLINE_NOTE, headlineColumns, marksNote } from './headline.js';

/** Reversals seen before the fold. */
const MOST_SHOWN = 6;

/** The block that is read first: who is better at what, on what that rests, a picture (HTML) and the table. */
export function verdictSection(summary: Summary, figure: string): string {
  const { decided, headline, inconclusive } = summary.verdict;
  const rests =
    inconclusive === null
      ? []
      : [`<strong>${html(unbroken(inconclusive))}</strong> <a href="#reversals">Where it reverses</a>`];
  return verdictBox({
    label: summary.strategies.length === 1 ? 'Result' : 'Verdict',
    decided,
    sentences: [...headline.map((sentence) => html(unbroken(sentence))), ...rests],
    beside: figure,
    more: verdictTable(summary),
    warnings: summary.warnings,
  });
}

function verdictTable(summary: Summary): string {
  const columns = headlineColumns(summary);
  const head = columns.map((column) => `<th scope="col" class="number">${html(column.label)}</th>`).join('');
  const rows = summary.strategies.map((strategy, place) => {
    const cells = columns.map(({ cells: of }) => {
      const { value, interval, mark, isBest } = of[place];
      const small = interval === '' ? '' : `<small>${html(interval)}</small>`;
      const said = [mark, isBest ? 'best' : ''].filter((text) => text !== '').join(' ');
      const beside = said === '' ? '' : ` <span class="mark">${said}</span>`;
      return `<td class="number"><b>${html(value)}</b>${beside}${small}</td>`;
    });
    const kind = strategy.workflow === 'hop' ? 'array-hop' : 'swap and relocate';
    const colour = `var(--strategy-${String((place % 8) + 1)})`;
    return `<tr><th scope="row"><span class="bar" style="background:${colour}"></span>${html(strategy.name)}<small>${kind}</small></th>${cells.join('')}</tr>`;
  });
  const level = numberText(summary.confidence.level, SHARE);
  const caption = `Means over ${numberText(summary.replications)} replications with ${level} intervals. ${marksNote(summary)}`;
  return framed(
    `<table class="headline">
<caption><span>${html(caption.trim())}</span></caption>
<thead><tr><th scope="col">Strategy</th>${head}</tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>`,
    'Results by strategy',
  );
}

/** What has to be said beside the verdict, and the reversals that matter most, for a page that holds no more. */
export function remarksSection(summary: Summary): string {
  const said = [...summary.verdict.remarks, ...leadTimeSentences(summary.strategies)];
  const table = reversalsTable(summary);
  const rests =
    table.rows.length === 0 ? '' : `\n<div id="reversals">${htmlTable(firstOfEach(table, 2), REVERSALS)}</div>`;
  return `<section aria-labelledby="remarks">
<h2 id="remarks">What else to know</h2>
${said.map((sentence) => `<p>${html(unbroken(sentence))}</p>`).join('\n')}${rests}
</section>`;
}

/** What stands below the block: remarks, every measure in sentences, where the verdict reverses, and what the numbers mean. */
export function findingsSection(summary: Summary): string {
  const { remarks, findings, reversals } = summary.verdict;
  const said = [...remarks, ...leadTimeSentences(summary.strategies), ...findings];
  const where = reversals.length === 0 ? '' : reversalsPart(reversalsTable(summary));
  return `<section aria-labelledby="findings">
<h2 id="findings">Findings</h2>
${said.map((sentence) => `<p>${html(unbroken(sentence))}</p>`).join('\n')}
<p class="note">${html(HEADLINE_NOTE)}</p>
${htmlTable(furtherTable(summary), 'Further measures')}${where}${cutTable(summary)}
</section>`;
}

/** Of each value what weighs most; all of it is folded behind that. */
function reversalsPart(table: Table): string {
  const first = firstOfEach(table, MOST_SHOWN);
  const folded =
    first.rows.length === table.rows.length
      ? ''
      : `\n<details><summary>All ${table.rows.length} reversals</summary>\n${htmlTable(table, 'All reversals')}\n</details>`;
  return `\n<h3 id="reversals">Where differences reverse or weaken</h3>\n${htmlTable(first, REVERSALS)}${folded}`;
}

const REVERSALS =
  'Unmeasured values at whose limits a clear difference reverses, or its interval comes to include 0; those on which the verdict rests come first, with one row for each value';

/** The first row of each value, at most so many. */
function firstOfEach({ columns, rows }: Table, most: number): Table {
  const values = rows.map(([value]) => value);
  return { columns, rows: rows.filter(([value], place) => values.indexOf(value) === place).slice(0, most) };
}

/** Every value at whose limit a clear difference reverses or weakens: by name, with its range, and what it does. */
export function reversalsTable(summary: Summary): Table {
  return {
    columns: [
      { label: 'Value' },
      { label: 'Assumed' },
      { label: 'Plausible range' },
      { label: 'At' },
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'There', numeric: true },
      { label: 'As simulated', numeric: true },
    ],
    rows: summary.verdict.reversals.map((reversal) => {
      const scale = differenceScale(reversal.measure, summary);
      const entry = summary.assumptions.find(({ path }) => path === reversal.path);
      return [
        capital(nameOf(reversal.path, summary.assumptions)) + bothText(entry, summary),
        entry?.value ?? '',
        entry?.range ?? '',
        reversal.at,
        reversal.strategy,
        measureName(reversal.measure),
        `${reversal.isReversed ? 'reverses' : 'weakens'}: ${estimateLine(reversal.atLimit, scale, 'difference')}`,
        signedText(reversal.baseline, scale),
      ];
    }),
  };
}

function bothText(entry: Assumption | undefined, { assumptions }: Summary): string {
  return entry === undefined || twinOf(assumptions, entry) === null ? '' : ' (both workflows)';
}

function cutTable(summary: Summary): string {
  const { allocation } = summary;
  if (allocation === null) return '';
  const rows = summary.strategies.flatMap(({ name, cut }) =>
    cut === null
      ? []
      : [
          [
            name,
            estimateLine(cut.yield, SHARE),
            estimateLine(cut.undetectedBadShare, SHARE),
            estimateLine(cut.missing, PLAIN),
            estimateLine(cut.tips, PLAIN),
          ],
        ],
  );
  if (rows.length === 0) return '';
  const columns = ['Strategy', 'Yield', 'Undetected bad', 'Images missing', 'Tips'];
  return `\n<h3>If the work stops at the end of the granted time</h3>\n${htmlTable(
    { columns: columns.map((label, place) => ({ label, numeric: place > 0 })), rows },
    `The same replications cut after ${allocation.text}: no step starts later, what was not kept is missing`,
  )}`;
}
