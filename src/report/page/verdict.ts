import type { Summary, Turn } from '../../study/results.js';
import { timeScale } from '../charts/chart.js';
import { estimateLine, moneyScale, PLAIN, signedText, type Scale } from '../format.js';
import { html, unbroken } from '../text.js';

/** What a turning point says, in one sentence of plain text. */
export function turnText(turn: Turn, summary: Summary): string {
  const scales: Readonly<Record<Turn['measure'], Scale>> = {
    time: timeScale(summary),
    yield: { divisor: 0.01, unit: 'points' },
    tips: PLAIN,
    cost: moneyScale(summary.scenario.currency),
  };
  const scale = scales[turn.measure];
  const here = signedText(turn.differenceHere, scale);
  const how = turn.isReversed ? 'is reversed' : 'is no longer told apart';
  return `At ${turn.at}, the difference of ${turn.strategy} in ${turn.measure} ${how}: ${estimateLine(turn.differenceThere, scale, true)} instead of ${here}.`;
}

/** A sentence in which the paths of values step back behind what they mean. */
function sentenceHtml(sentence: string, paths: ReadonlySet<string>): string {
  return [...paths].reduce(
    (text, path) => {
      const shown = html(unbroken(path));
      return text.replaceAll(`(${shown},`, () => `(<code>${shown}</code>,`);
    },
    html(unbroken(sentence)),
  );
}

export function verdictSection(summary: Summary): string {
  const { decided, sentences, turns } = summary.verdict;
  const label = summary.strategies.length === 1 ? 'Result' : 'Verdict';
  const paths = new Set(turns.map(({ path }) => path));
  const text = sentences.map(
    (sentence, place) => `<p${place === 0 ? ' class="first"' : ''}>${sentenceHtml(sentence, paths)}</p>`,
  );
  const where = `\n<p>Every turn (${String(turns.length)} in all) stands in the <a href="#register">assumption register</a>.</p>`;
  const what = turns.length === 0 ? '' : where;
  const warnings = summary.warnings.map((warning) => `\n<p><strong>Warning:</strong> ${html(unbroken(warning))}</p>`);
  return `<section class="verdict${decided ? '' : ' open'}" aria-labelledby="verdict">
<h2 id="verdict">${label}</h2>
${text.join('\n')}${what}${warnings.join('')}
</section>`;
}
