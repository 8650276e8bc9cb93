import type { Summary, Turn } from '../../study/results.js';
import { estimateLine, signedText } from '../format.js';
import { differenceScale } from '../measure-scale.js';
import { html, unbroken } from '../text.js';

/** What a turning point says, in one sentence of plain text. */
export function turnText(turn: Turn, summary: Summary): string {
  const scale = differenceScale(turn.measure, summary);
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
  const { decided, sentences, turns } = summary.verdict;
  const paths = new Set(turns.map(({ path }) => path));
  const where = `\n<p>Every turn (${String(turns.length)} in all) stands in the <a href="#register">assumption register</a>.</p>`;
  return verdictBox({
    label: summary.strategies.length === 1 ? 'Result' : 'Verdict',
    decided,
    sentences: sentences.map((sentence) => sentenceHtml(sentence, paths)),
    more: turns.length === 0 ? '' : where,
    warnings: summary.warnings,
  });
}
