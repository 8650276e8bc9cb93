import { html, unbroken } from '../text.js';

/** The box at the head of a page that says what came out: `sentences` are HTML, the first is set off. */
export interface VerdictBox {
  readonly label: string;
  /** False where what came out does not stand, which the box then shows. */
  readonly decided: boolean;
  readonly sentences: readonly string[];
  /** A figure (HTML) beside the sentences where there is room. */
  readonly beside?: string;
  /** HTML below them. */
  readonly more?: string;
  readonly warnings: readonly string[];
}

export function verdictBox({ label, decided, sentences, beside = '', more = '', warnings }: VerdictBox): string {
  const text = sentences.map((sentence, place) => `<p${place === 0 ? ' class="first"' : ''}>${sentence}</p>`);
  const warned = warnings.map((warning) => `\n<p><strong>Warning:</strong> ${html(unbroken(warning))}</p>`);
  return `<section class="verdict${decided ? '' : ' open'}" aria-labelledby="verdict">
<div class="said">
<h2 id="verdict">${html(label)}</h2>
${text.join('\n')}${warned.join('')}
</div>
${beside}${more}
</section>`;
}
