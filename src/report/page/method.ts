import type { AboutScenario, StudyRecord } from '../../analysis/about.js';
import { isInterrupted } from '../../analysis/interrupted.js';
import type { Summary } from '../../analysis/results.js';
import { ALWAYS, cautionsFor } from '../cautions.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { recordFacts } from '../study-facts.js';
import { html } from '../text.js';

export function cautionsSection({ cautions }: Pick<AboutScenario, 'cautions'>): string {
  const items = cautionsFor(cautions).map(
    (caution) =>
      `<li><strong>${html(caution.title)}.</strong> ${html(caution.text)} <span class="small">Source: ${html(caution.source)}</span></li>`,
  );
  return `<section aria-labelledby="cautions">
<h2 id="cautions">Usual cautions</h2>
<p><strong>${html(ALWAYS)}</strong></p>${items.length === 0 ? '' : `\n<ul class="plain">${items.join('\n')}</ul>`}
</section>`;
}

/** What was computed and how, as pairs of plain text; the text for proposals has them too. */
export function methodFacts(summary: Summary): readonly (readonly [string, string])[] {
  const { confidence } = summary;
  return [
    [
      'Replications',
      `${numberText(summary.replications)} of every strategy, all with common random numbers; ${summary.stopping.text}`,
    ],
    [
      'Intervals',
      `${numberText(confidence.level, SHARE)}, two-sided. Differences are paired` +
        (confidence.comparisons > 1
          ? `, and their intervals hold together (joint, by Bonferroni over ${String(confidence.comparisons)}: six measures of each strategy but the first); completion is held to the same level, beside them.`
          : '.') +
        (summary.stopping.rule === 'fixed'
          ? ''
          : ' Replications stop by the width of intervals, looked at a few times, never by who is ahead; that width is the one before widening.'),
    ],
    [
      'Time compared',
      'Instrument time: all time inside bookings from the start to the end, since calendar time goes in lumps of whole sessions; without bookings, all of it. Preparation at the bench comes before the start and counts as operator time; what runs past the end of a booking is overrun.',
    ],
    ...recordFacts(summary),
  ];
}

/** How a study was computed and how it is run again; `intro` and `cite` are plain text, `facts` pairs of plain text. */
export interface HowComputed {
  readonly intro: string;
  readonly facts: readonly (readonly [string, string])[];
  /** The command line that makes the same report again; null where there is none. */
  readonly command: string | null;
  /** Whether it was interrupted, so that no command line makes the same again. */
  readonly isStopped?: boolean;
  /** What to cite, and which files hold the rest. */
  readonly cite: string;
}

/** The closing part of every report page. Words in backticks become code. */
export function howComputedSection({ intro, facts, command, isStopped = false, cite }: HowComputed): string {
  return `<section aria-labelledby="method">
<h2 id="method">How it was computed</h2>
<p>${html(intro)}</p>
${factsList(facts)}
</section>
<section aria-labelledby="again">
<h2 id="again">Reproduce and cite</h2>
${againText(command, isStopped)}<p>${html(cite).replace(/`([^`]*)`/g, '<code>$1</code>')}</p>
</section>`;
}

/** Pairs of plain text as a quiet list. */
export function factsList(facts: readonly (readonly [string, string])[]): string {
  const list = facts.map(([name, text]) => `<dt>${html(name)}</dt><dd>${html(text)}</dd>`);
  return `<dl class="method">${list.join('')}</dl>`;
}

function againText(command: string | null, isStopped: boolean): string {
  if (command === null) return '';
  const how = isStopped
    ? 'This was interrupted, which no command line repeats. Run to its end, the same command line makes the whole report:'
    : 'The same version, files and seed give the same numbers on any machine; <code>swap-or-hop verify summary.json</code> makes it all again and compares:';
  return `<p>${how}</p>
<pre><code>${html(command)}</code></pre>
`;
}

/** Where the charts of a report are, to go on a sentence; nothing where there are none, because it was interrupted. */
export function inCharts(stopping: string): string {
  return isInterrupted(stopping) ? '' : ', every chart in `charts/`';
}

/** How to cite a study of a scenario with this program; `what` is what was run, such as `3200 replications`. */
export function citation(
  { tool, scenario, seed }: Pick<StudyRecord<string>, 'tool' | 'scenario' | 'seed'>,
  what: string,
): string {
  return `Cite as: ${tool.name}, version ${tool.version}, discrete-event simulation of scanning-probe campaigns; scenario “${scenario.title}”, seed ${seed}, ${what}.`;
}

/** @param isWhole whether pictures and the row of each replication were made */
export function methodSection(summary: Summary, isWhole: boolean): string {
  const numbers = isWhole
    ? 'every chart in `charts/`, all numbers in `summary.json`, `images.csv` and `replications.csv`'
    : 'all numbers of this page in `summary.json` and `images.csv`';
  return howComputedSection({
    intro:
      'Each replication plays the whole plan, scan by scan, once for each strategy: tips wear, are contaminated and break by chance, and what is noticed decides what is taken again and what is replaced. Means, intervals and chances are over replications. They say what follows from the values in the assumptions, not whether those are right.',
    facts: methodFacts(summary),
    command: summary.command,
    isStopped: isInterrupted(summary.stopping.rule),
    cite: `${citation(summary, `${numberText(summary.replications)} replications`)} The text for a proposal is in \`methods.md\`, ${numbers}.`,
  });
}
