import { adviceOf, byTime, hoursText, SMALL, toMeasure } from '../../analysis/worth/words.js';
import type { WorthFound } from '../../analysis/worth/results.js';
import { shellLine } from '../../scenario/shell-line.js';
import { shortTable } from '../../report/worth-tables.js';
import { plainText, unbroken } from '../../report/text.js';
import { numberText } from '../../wording/numbers.js';
import { DataTable } from '../../page/parts/figure.js';
import type { Seen } from './use-explorer.js';

interface MeasureFirstProps {
  readonly seen: Seen;
  readonly file: string;
  readonly onWeigh: () => void;
}

/** Which value to measure first: of what is declared uncertain from the draws of the answer, of all that is assumed when asked. */
export function MeasureFirst({ seen: { answer, worth, isWeighing, isOld }, file, onWeigh }: MeasureFirstProps) {
  if (answer === null || answer.summary.strategies.length < 2) return null;
  const { summary, isTried } = answer;
  const known = isTried ? (summary.parameterUncertainty?.worth ?? null) : null;
  const found = worth ?? known;
  return (
    <section aria-labelledby="measure-first" class="measure">
      <h3 id="measure-first">What to measure first</h3>
      <div role="status">
        {found === null ? null : <p>{unbroken(plainText(saidOf(found, summary.confidence.level, file)))}</p>}
        {isWeighing ? <p class="note">Drawing all that is uncertain or only assumed …</p> : null}
      </div>
      {found === null ? null : (
        <DataTable
          caption={captionOf(found, worth !== null)}
          table={shortTable(found, byTime(found, summary.confidence.level))}
        />
      )}
      {worth !== null || isWeighing ? null : (
        <div class="row">
          <button type="button" disabled={isOld} onClick={onWeigh}>
            {known === null ? 'Work it out' : 'Count in what is only assumed'}
          </button>
          <p class="note">Takes up to a minute.</p>
        </div>
      )}
    </section>
  );
}

function captionOf({ draws, replicationsPerDraw }: WorthFound, isOfAll: boolean): string {
  const what = isOfAll ? 'all that is uncertain or only assumed' : 'what the scenario says is uncertain';
  return `What is saved by choosing a strategy once it is known: ${numberText(draws)} draws of ${what}, ${replicationsPerDraw} replications of each, with intervals`;
}

/** The advice; where the draws do not tell which comes first, that more of them are needed. */
function saidOf(found: WorthFound, level: number, file: string): string {
  const speaking = byTime(found, level);
  const advice = adviceOf(found, speaking).join(' ');
  const [first, second] = [0, 1].map((place) => toMeasure(found, speaking.saved).at(place));
  const isTold = first === undefined || second === undefined || second.worth.high < Math.max(first.worth.low, SMALL);
  if (isTold || found.perfect.hours.value < SMALL || first.worth.high < SMALL) return advice;
  return `${advice} ${numberText(found.draws)} draws do not tell what comes first beyond doubt: the next may be worth up to ${hoursText(second.worth.high)}. More draws are needed: ${shellLine('worth', file)}`;
}
