import { measureName } from '../../analysis/words.js';
import type { Summary } from '../../analysis/results.js';
import { differenceScale } from '../../report/measure-scale.js';
import { plainText } from '../../report/text.js';
import { estimateText, numberText } from '../../wording/numbers.js';
import { capital } from '../../wording/phrases.js';
import type { Against } from '../messages.js';

/** What changed from one setting to another, with common random numbers. */
export function Changes({ against, summary }: { readonly against: Against; readonly summary: Summary }) {
  const { from, to, changes, replications } = against;
  const strategies = [...new Set(changes.map(({ strategy }) => strategy))];
  const changed = changes.filter(({ estimate: { low, high } }) => low !== 0 || high !== 0);
  const measures = [...new Set(changed.map(({ measure }) => measure))];
  const title = to === 'now' ? `Changed since ${from}` : `From ${from} to ${to}`;
  if (changed.length === 0)
    return (
      <p class="note">
        {title}: nothing, in any of {numberText(replications)} replications.
      </p>
    );
  return (
    <>
      <p class="note caption">
        <b>{title}</b>, mean of {numberText(replications)} replications of both with common random numbers (95 %
        intervals, each by itself)
      </p>
      <div class="wide" role="group" tabIndex={0} aria-label={title}>
        <table class="changes">
          <thead>
            <tr>
              <th scope="col">Strategy</th>
              {measures.map((measure) => (
                <th scope="col" class="number">
                  {capital(measureName(measure))}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {strategies.map((strategy) => (
              <tr>
                <th scope="row">{plainText(strategy)}</th>
                {measures.map((measure) => {
                  const found = changes.find((each) => each.strategy === strategy && each.measure === measure);
                  return <Cell estimate={found?.estimate} scale={differenceScale(measure, summary)} />;
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

interface CellProps {
  readonly estimate: Against['changes'][number]['estimate'] | undefined;
  readonly scale: Parameters<typeof estimateText>[1];
}

function Cell({ estimate, scale }: CellProps) {
  if (estimate === undefined) return <td class="number">–</td>;
  if (estimate.low === 0 && estimate.high === 0) return <td class="number same">no change</td>;
  const { value, interval } = estimateText(estimate, scale, 'difference');
  const isClear = estimate.low > 0 || estimate.high < 0;
  return (
    <td class={`number${isClear ? '' : ' same'}`}>
      {isClear ? <b>{value}</b> : value}
      {interval === '' ? null : <small class="small">{interval}</small>}
    </td>
  );
}
