import { DataTable } from '../../../page/parts/figure.js';
import { Timelines } from '../../../page/parts/timelines.js';
import { durationText, fixed, numberText, SHARE } from '../../../wording/numbers.js';
import type { Account } from '../../session/account.js';
import type { SessionAnswer } from '../../tasks/session.js';
import { tableOf } from '../figure.js';
import { clockOf } from './words.js';

const ROWS: readonly (readonly [string, (account: Account) => string])[] = [
  ['Good images', ({ good }) => String(good)],
  ['Undetected bad images', ({ undetectedBad }) => String(undetectedBad)],
  ['Images given up or missing', ({ unkept }) => String(unkept)],
  ['Yield', (account) => numberText(account.yield, SHARE)],
  ['Attempts', ({ attempts }) => String(attempts)],
  ['Tips used', ({ tips }) => String(tips)],
  ['Scanning lost', ({ lostScanning }) => durationText(lostScanning)],
  ['Time from start to end', ({ time }) => durationText(time)],
  ['All images done', ({ isComplete }) => (isComplete ? 'yes' : 'no')],
];

/** Stretches that are listed at most. */
const MOST = 60;

interface AfterwardsProps {
  readonly afterwards: NonNullable<SessionAnswer['afterwards']>;
  /** Time of the week at the start, seconds. */
  readonly startsAt: number;
}

/** What the session came to, beside what the rules would have made of it, and what nobody could see: the state of each tip. */
export function Afterwards({ afterwards: { accounts, timelines }, startsAt }: AfterwardsProps) {
  const [{ tips }] = timelines;
  const table = tableOf(
    ['What', ...accounts.map(({ name }) => name)],
    ROWS.map(([name, text]) => [name, ...accounts.map(text)]),
  );
  return (
    <div class="after">
      <h3>Your decisions and the rules</h3>
      <DataTable caption="Your session and the same one by the rules, with common random numbers" table={table} />
      <figure>
        <Timelines
          timelines={timelines}
          label="What the time went to, as you decided and by the rules, with the state of the tip below each."
        />
      </figure>
      <h3>True tip history</h3>
      <ul>
        {tips.slice(0, MOST).map(({ tip, state, start, end, radius }) => (
          <li>
            {tip}: {state} from {clockOf(startsAt + start)} to {clockOf(startsAt + end)}, apex radius {fixed(radius, 0)}{' '}
            nm at the end of that.
          </li>
        ))}
        {tips.length > MOST ? <li>And {tips.length - MOST} more.</li> : null}
      </ul>
    </div>
  );
}
