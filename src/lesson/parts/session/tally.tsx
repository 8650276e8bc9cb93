import { ACTIVITIES, ACTIVITY_NUMBER } from '../../../campaign/activities.js';
import { durationText } from '../../../wording/numbers.js';
import { tallyAt } from '../../session/moment.js';
import type { Game } from './game.js';

/** Where the time went up to now: a row for each activity that has had some of it. */
export function Tally({ game: { playing, time } }: { readonly game: Game }) {
  const tally = tallyAt(playing, time);
  const most = Math.max(1, ...tally.values());
  return (
    <div class="wide" role="group" tabIndex={0} aria-label="Where the time went">
      <table class="tally">
        <caption>Where the time went</caption>
        <tbody>
          {ACTIVITIES.flatMap((activity) => {
            const spent = tally.get(activity) ?? 0;
            if (spent === 0) return [];
            return (
              <tr key={activity}>
                <th scope="row">{activity}</th>
                <td>{durationText(spent)}</td>
                <td class="bars" aria-hidden="true">
                  <div
                    class={`bar activity-${ACTIVITY_NUMBER[activity] + 1}`}
                    style={{ inlineSize: `${((100 * spent) / most).toFixed(1)}%` }}
                  />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
