import { ACTIVITIES } from '../../campaign/activities.js';
import type { Summary } from '../../analysis/results.js';
import { strategyLabels } from '../../report/charts/chart.js';
import { hours } from '../../studies/compare/charts/hours.js';
import { numberText, workScale } from '../../wording/numbers.js';
import { Figure } from '../../page/parts/figure.js';

const SHOWN = ACTIVITIES.map((activity, place) => ({ activity, place })).filter(
  ({ activity }) => activity !== 'waiting for a booking',
);

const CAPTION =
  'Mean time by activity, all instruments together, without preparation at the bench before the start. Nights and other time between bookings are left out; what runs past the end of a booking is in.';

/** What the hours go to: a bar for each strategy. */
export function Hours({ summary }: { readonly summary: Summary }) {
  const { strategies } = summary;
  const used = SHOWN.filter(({ activity }) => strategies.some(({ split }) => split[activity] > 0));
  const totals = strategies.map(({ split }) => used.reduce((sum, { activity }) => sum + split[activity], 0));
  const longest = Math.max(...totals);
  const scale = workScale(longest);
  return (
    <Figure title={hours.title} caption={CAPTION} table={hours.table(summary)}>
      <div role="img" aria-label={hours.alt(summary)}>
        {strategyLabels(summary).map((name, strategy) => (
          <div class="bars">
            <span class="name">{name}</span>
            <span class="total">{numberText(totals[strategy], scale)}</span>
            <span class="bar">
              {used.map(({ activity, place }) => (
                <span
                  class={`activity-${place + 1}`}
                  style={{ width: `${(100 * strategies[strategy].split[activity]) / longest}%` }}
                  title={`${activity}: ${numberText(strategies[strategy].split[activity], scale)}`}
                />
              ))}
            </span>
          </div>
        ))}
        <ul class="legend">
          {used.map(({ activity, place }) => (
            <li>
              <span class={`key activity-${place + 1}`} />
              {activity}
            </li>
          ))}
        </ul>
      </div>
    </Figure>
  );
}
