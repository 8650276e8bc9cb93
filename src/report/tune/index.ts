/** All files of tuning's report, by name. Nothing is written here. */

import { isByHand } from '../../study/by-hand.js';
import type { TuneResult } from '../../study/tune/results.js';
import { answerBox, answerText } from '../answer.js';
import type { Chart } from '../charts/chart.js';
import { numberText, SHARE } from '../format.js';
import { prettyJson } from '../json.js';
import { cautionsSection, citation, howComputedSection, inCharts } from '../page/method.js';
import { picturesSection, planFacts, studyPage } from '../page.js';
import { type Draw, drawCharts } from '../pictures.js';
import { recordFacts } from '../study-facts.js';
import { htmlTable, type Table, textTable } from '../table.js';
import type { Styles } from '../terminal.js';
import { fits, PAGE_WIDTH } from '../terminal-columns.js';
import { html } from '../text.js';
import { tuneCsv } from './csv.js';
import { lossesChart } from './losses-chart.js';
import { mapChart } from './map-chart.js';
import { responseChart, yieldChart } from './response-chart.js';
import { allSettings, briefSettings, briefTables, settingsTable } from './tables.js';

/** Texts of a report by their name inside its folder. */
export async function tuneFiles(result: TuneResult, draw?: Draw | null): Promise<Map<string, string>> {
  const pictures = await drawCharts(tuneCharts(result), result, draw);
  const files = new Map(pictures.files);
  files.set('report.html', page(result, pictures.figures));
  files.set('summary.json', prettyJson(result));
  files.set('tune.csv', tuneCsv(result));
  if (result.snippet !== null) files.set('setting.yaml', result.snippet);
  return files;
}

/** A curve for one value, a map for two; what a wrong choice costs for any number. */
export function tuneCharts({ varied, goal, looked }: TuneResult): readonly Chart<TuneResult>[] {
  const overview: readonly Chart<TuneResult>[] =
    varied.length === 1
      ? goal.unit === 'yield'
        ? [responseChart]
        : [responseChart, yieldChart]
      : varied.length === 2 && (looked.length === 0 || varied.every(({ settings }) => settings.length <= 60))
        ? [mapChart]
        : [];
  return [...overview, lossesChart];
}

/** Text for the terminal: the settings, what to write into the scenario, and the answer last. */
export function tuneText(result: TuneResult, styles: Styles, columns?: number): string {
  const shown = briefSettings(result);
  const of = allSettings(result).length;
  const which = shown.length === of ? '' : `, the best of ${String(of)}`;
  return answerText(
    {
      record: result,
      run: `“${result.strategy.name}”, ${numberText(result.procedure.campaigns)} campaigns, ${numberText(result.confidence.level, SHARE)} intervals`,
      tables: [{ title: `For ${result.goal.wanted}${which}`, table: fitting(briefTables(result, shown), columns) }],
      warnings: result.warnings,
      answer: { ...result.answer, sentences: [...result.answer.sentences, ...pasting(result)] },
    },
    styles,
    columns,
  );
}

/** The first of several tables that has room in a terminal; the last one where none has. */
function fitting(tables: readonly Table[], columns = Infinity): Table {
  const width = Math.min(columns, PAGE_WIDTH);
  return tables.find((table) => fits(textTable(table), width)) ?? tables[tables.length - 1];
}

function pasting({ snippet }: TuneResult): readonly string[] {
  return snippet === null
    ? []
    : ['What to write into the scenario stands in setting.yaml, in the folder of the report.'];
}

function page(result: TuneResult, figures: readonly string[]): string {
  const { goal, strategy, varied, procedure, space, constraint } = result;
  return studyPage({
    kicker: `The best setting of a strategy, for ${goal.wanted}`,
    record: result,
    facts: [['Strategy', strategy.name], ...planFacts(result.scenario, result.allocation)],
    sections: [
      answerBox(result.answer, result.warnings),
      snippetSection(result),
      picturesSection(figures),
      comparedSection(result),
      cautionsSection(result.scenario),
      howComputedSection({
        isStopped: isByHand(result.stopping),
        intro: procedure.text,
        facts: [
          ...varied.map(
            ({ path, description, settings }) =>
              [path, `${description.replaceAll('`', '')}; ${numberText(settings.length)} settings`] as const,
          ),
          ['Goal', goal.title],
          ...(constraint === null
            ? []
            : [
                [
                  'Least yield',
                  `${numberText(constraint.yieldAtLeast, SHARE)}, ±${numberText(constraint.tolerance, { divisor: 0.01, unit: 'points' })} may be found either way`,
                ] as const,
              ]),
          [
            'Chance and zone',
            `${numberText(procedure.confidence, SHARE)} to be right${procedure.isDecided ? '' : ' (not reached)'}; ${numberText(procedure.zone.share, SHARE)} of the best mean of the first look counts as equal`,
          ],
          [
            'Settings',
            `${numberText(space.size)} in the ranges, ${numberText(space.lookedAt)} looked at, ${numberText(space.compared)} compared${space.refused.count === 0 ? '' : `; ${numberText(space.refused.count)} cannot be (${space.refused.reason ?? ''})`}`,
          ],
          ['Campaigns', `${numberText(procedure.campaigns)}; ${result.stopping}`],
          [
            'Sources',
            'S.-H. Kim and B. L. Nelson, ACM Trans. Model. Comput. Simul. 11(3), 251 (2001); S. Andradóttir and S.-H. Kim, Naval Res. Logist. 57(5), 403 (2010); J. H. Halton, Numer. Math. 2, 84 (1960); T. G. Kolda, R. M. Lewis and V. Torczon, SIAM Rev. 45(3), 385 (2003).',
          ],
          ...recordFacts(result),
        ],
        command: result.command,
        cite: `${citation(result, `${numberText(procedure.campaigns)} campaigns`)} All numbers are in \`summary.json\` and \`tune.csv\`${inCharts(result.stopping)}${result.snippet === null ? '' : ', what to write into the scenario in `setting.yaml`'}.`,
      }),
    ],
  });
}

function comparedSection(result: TuneResult): string {
  const { comparison } = result.procedure.replications;
  const level = numberText(result.confidence.level, SHARE);
  const [means, losses] =
    comparison === 0
      ? ['Means so far, all on the same replications', ', not for the one that looks best']
      : [
          `Means over ${numberText(comparison)} replications that no choice has seen`,
          `; those of how much worse it is than the winner are paired and hold for all ${numberText(result.confidence.comparisons)} together (Bonferroni)`,
        ];
  return `<section aria-labelledby="settings">
<h2 id="settings">What was compared</h2>
${htmlTable(settingsTable(result, allSettings(result)), `${means}, with ${level} intervals`)}
<p class="note">Intervals of what a setting comes to hold for each alone${losses}. Yield weighs each good image by its quality and by what it is worth; the undetected bad share is what is kept though it is bad, which nobody notices.</p>
</section>`;
}

function snippetSection({ snippet, strategy }: TuneResult): string {
  if (snippet === null) return '';
  return `<section aria-labelledby="write">
<h2 id="write">What to write into the scenario</h2>
<p>In the entry of ${html(strategy.name)}; what stands there beside it stays.</p>
<pre><code>${codeHtml(snippet)}</code></pre>
</section>`;
}

/** Lines stay lines; each is made safe by itself. */
function codeHtml(text: string): string {
  return text
    .trimEnd()
    .split('\n')
    .map((line) => {
      const indent = line.length - line.trimStart().length;
      return ' '.repeat(indent) + html(line);
    })
    .join('\n');
}
