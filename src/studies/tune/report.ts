import type { Chart } from '../../report/charts/chart.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { htmlTable } from '../../report/table.js';
import { firstFitting } from '../../report/terminal-columns.js';
import { html } from '../../report/text.js';
import { cellsOf, knownTable, RECORDED, recordsTable, shortTable } from '../../report/worth-tables.js';
import { speakingOf } from './answer.js';
import { tuneCsv } from './csv.js';
import { lossesChart } from './losses-chart.js';
import { mapChart } from './map-chart.js';
import { responseChart, yieldChart } from './response-chart.js';
import type { TuneResult } from './results.js';
import { allSettings, briefSettings, briefTables, settingsTable } from './tables.js';

export const tuneReport = answerReport<TuneResult>({
  files: { 'tune.csv': tuneCsv, 'setting.yaml': ({ snippet }) => snippet },
  charts: tuneCharts,
  shown: (result) => {
    const { goal, strategy, varied, procedure, space, constraint } = result;
    const run = `${numberText(procedure.campaigns)} campaigns`;
    const shown = briefSettings(result);
    const of = allSettings(result).length;
    const title = `For ${goal.wanted}${shown.length === of ? '' : `, the best of ${String(of)}`}`;
    return {
      kicker: `The best setting of a strategy, for ${goal.wanted}`,
      facts: [['Strategy', strategy.name], ...planFacts(result.scenario, result.allocation)],
      answer: result.answer,
      warnings: result.warnings,
      run,
      terminal: {
        run: `“${strategy.name}”, ${run}, ${numberText(result.confidence.level, SHARE)} intervals`,
        tables: (columns) => [
          { title, table: firstFitting(briefTables(result, shown), columns) },
          ...(result.worth === null
            ? []
            : [{ title: KNOWN_BEFORE, table: shortTable(result.worth, speakingOf(result, result.worth)) }]),
        ],
      },
      above: [snippetSection(result)],
      below: [comparedSection(result), worthSection(result)],
      intro: procedure.text,
      method: [
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
                `${numberText(constraint.yieldAtLeast, SHARE)}, ±${numberText(constraint.tolerance, { divisor: 0.01, unit: 'points' })} lies within the indifference zone`,
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
        ...(result.worth === null
          ? []
          : [
              [
                'Value of information',
                `for the choice between ${numberText(result.worth.settings.length)} settings${constraint === null ? '' : ' that have the yield wanted'}, from ${numberText(result.worth.draws)} draws with ${numberText(result.worth.replicationsPerDraw)} replications each, as in the study worth (M. Strong, J. E. Oakley and A. Brennan, Med. Decis. Making 34, 311, 2014; M. Strong et al., Med. Decis. Making 35, 570, 2015)`,
              ] as const,
            ]),
        ['Campaigns', `${numberText(procedure.campaigns)}; ${result.stopping}`],
        [
          'Sources',
          'S.-H. Kim and B. L. Nelson, ACM Trans. Model. Comput. Simul. 11(3), 251 (2001); S. Andradóttir and S.-H. Kim, Naval Res. Logist. 57(5), 403 (2010); J. H. Halton, Numer. Math. 2, 84 (1960); T. G. Kolda, R. M. Lewis and V. Torczon, SIAM Rev. 45(3), 385 (2003).',
        ],
      ],
      rest: 'All numbers are in `summary.json` and `tune.csv`',
      restAfter: result.snippet === null ? '' : ', what to write into the scenario in `setting.yaml`',
    };
  },
});

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

const KNOWN_BEFORE = 'What knowing it before choosing is worth';

/** What to measure before one chooses the setting. */
function worthSection(result: TuneResult): string {
  const { worth } = result;
  if (worth === null || worth.values.length === 0) return '';
  const cells = cellsOf(speakingOf(result, worth));
  const records = worth.records.length === 0 ? '' : `\n${htmlTable(recordsTable(worth, cells), RECORDED)}`;
  return `<section aria-labelledby="worth">
<h2 id="worth">${KNOWN_BEFORE}</h2>
${htmlTable(knownTable(worth, cells), 'What choosing the setting once it is known comes to in the goal, on average, against the setting that one would choose now; and the probability that the choice is wrong even then')}${records}
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
