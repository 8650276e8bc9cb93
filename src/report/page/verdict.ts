import { twinOf } from '../../scenario/twins.js';
import type { Summary, Turn } from '../../study/results.js';
import { measureName } from '../../study/words.js';
import { estimateLine, signedText } from '../format.js';
import { differenceScale } from '../measure-scale.js';
import { html, unbroken } from '../text.js';

/** What becomes of a difference at a range limit, in one sentence of plain text. */
export function turnText(turn: Turn, summary: Summary): string {
  const scale = differenceScale(turn.measure, summary);
  const here = signedText(turn.differenceHere, scale);
  const how = turn.isReversed ? 'reverses' : 'weakens, as its interval includes 0';
  const entry = summary.register.find(({ path }) => path === turn.path);
  const where = entry === undefined || twinOf(summary.register, entry) === null ? '' : ' in both workflows';
  return `At ${turn.at}${where}, the difference of ${turn.strategy} in ${measureName(turn.measure)} ${how}: ${estimateLine(turn.differenceThere, scale, true)} instead of ${here}.`;
}

/** The box at the head of a page that says what came out: `sentences` are HTML, the first is set off. */
export interface VerdictBox {
  readonly label: string;
  /** False where what came out does not stand, which the box then shows. */
  readonly decided: boolean;
  readonly sentences: readonly string[];
  /** HTML between sentences and warnings. */
  readonly more?: string;
  readonly warnings: readonly string[];
}

export function verdictBox({ label, decided, sentences, more = '', warnings }: VerdictBox): string {
  const text = sentences.map((sentence, place) => `<p${place === 0 ? ' class="first"' : ''}>${sentence}</p>`);
  const warned = warnings.map((warning) => `\n<p><strong>Warning:</strong> ${html(unbroken(warning))}</p>`);
  return `<section class="verdict${decided ? '' : ' open'}" aria-labelledby="verdict">
<h2 id="verdict">${html(label)}</h2>
${text.join('\n')}${more}${warned.join('')}
</section>`;
}

export function verdictSection(summary: Summary): string {
  const { decided, glance, sentences, turns } = summary.verdict;
  const where =
    turns.length === 0
      ? ''
      : `\n<p>All that reverses or weakens (${String(turns.length)} in all) stands in the <a href="#register">assumption register</a>.</p>`;
  const whole = sentences.map((sentence) => `<p>${html(unbroken(sentence))}</p>`).join('\n');
  return verdictBox({
    label: summary.strategies.length === 1 ? 'Result' : 'Verdict',
    decided,
    sentences: glance.map((sentence) => html(unbroken(sentence))),
    more: `\n<details><summary>Every measure, and what it rests on</summary>\n${whole}${where}\n</details>`,
    warnings: summary.warnings,
  });
}
