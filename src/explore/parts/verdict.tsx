import type { Summary } from '../../analysis/results.js';
import { headlineColumns, marksNote } from '../../studies/compare/page/headline.js';
import { plainText, unbroken } from '../../report/text.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { capital } from '../../wording/phrases.js';

interface VerdictProps {
  readonly summary: Summary;
  readonly isTried: boolean;
}

/** The block that is read first: the same data and words as in the report of `compare`. */
export function Verdict({ summary, isTried }: VerdictProps) {
  const { decided, headline, inconclusive } = summary.verdict;
  const label = summary.strategies.length === 1 ? 'Result' : 'Verdict';
  return (
    <section class={`verdict${decided && isTried ? '' : ' open'}`} aria-labelledby="verdict">
      <h2 id="verdict">{isTried ? label : `${label}, assumptions not yet tried`}</h2>
      {headline.map((sentence, place) => (
        <p class={place === 0 ? 'first' : undefined}>{said(sentence)}</p>
      ))}
      {inconclusive === null ? null : (
        <p>
          <strong>{said(inconclusive)}</strong>
        </p>
      )}
      {summary.verdict.remarks.map((sentence) => (
        <p class="small">{said(sentence)}</p>
      ))}
      <HeadlineTable summary={summary} />
    </section>
  );
}

function said(sentence: string): string {
  return unbroken(plainText(sentence));
}

/** What the verdict rests on, a row for each strategy. */
export function HeadlineTable({ summary, caption }: { readonly summary: Summary; readonly caption?: string }) {
  const columns = headlineColumns(summary);
  const level = numberText(summary.confidence.level, SHARE);
  const text =
    caption ??
    `Means over ${numberText(summary.replications)} replications with ${level} intervals. ${marksNote(summary)}`;
  return (
    <>
      <p class="note caption">{text}</p>
      <div class="wide" role="group" tabIndex={0} aria-label={caption ?? 'Results by strategy'}>
        <table class="headline">
          <thead>
            <tr>
              <th scope="col">Strategy</th>
              {columns.map(({ short }) => (
                <th scope="col" class="number">
                  {capital(short.join(' ').trim())}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {summary.strategies.map(({ name, workflow }, place) => (
              <tr>
                <th scope="row">
                  <span class={`bar strategy-${(place % 8) + 1}`} />
                  {plainText(name)}
                  <small>{workflow === 'hop' ? 'array-hop' : 'swap and relocate'}</small>
                </th>
                {columns.map(({ cells }) => {
                  const { value, interval, mark, isBest } = cells[place];
                  const beside = [mark, isBest ? 'best' : ''].filter((text) => text !== '').join(' ');
                  return (
                    <td class="number">
                      <b>{value}</b>
                      {beside === '' ? null : (
                        <>
                          {' '}
                          <span class="mark">{beside}</span>
                        </>
                      )}
                      {interval === '' ? null : <small>{interval}</small>}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
