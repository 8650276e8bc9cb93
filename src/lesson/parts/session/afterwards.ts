import { durationText, fixed, numberText, SHARE } from '../../../report/format.js';
import { clockText } from '../../../study/timeline.js';
import { element } from '../../dom.js';
import { dataTable } from '../../figure.js';
import type { Account } from '../../session/account.js';
import type { SessionAnswer } from '../../tasks/session.js';

type Afterwards = NonNullable<SessionAnswer['afterwards']>;

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

/** What the session came to, beside what the rules would have made of it. */
export function accountsTable({ accounts }: Afterwards): HTMLElement {
  return dataTable(
    'Your session and the same one by the rules, with common random numbers',
    ['What', ...accounts.map(({ name }) => name)],
    ROWS.map(([name, text]) => [name, ...accounts.map(text)]),
  );
}

/** Stretches that are listed at most. */
const MOST = 60;

/** What nobody could see while it was played: the true state of each tip. */
export function truthList({ timelines: [yours] }: Afterwards, startsAt: number): HTMLElement {
  const clock = (seconds: number) => clockText((startsAt + seconds) * 1e6).replace(/:\d\d$/u, '');
  const lines = yours.tips
    .slice(0, MOST)
    .map(
      ({ tip, state, start, end, radius }) =>
        `${tip}: ${state} from ${clock(start)} to ${clock(end)}, apex radius ${fixed(radius, 0)} nm at the end of that.`,
    );
  const more = yours.tips.length > MOST ? [`And ${yours.tips.length - MOST} more.`] : [];
  return element('ul', {}, ...[...lines, ...more].map((line) => element('li', {}, line)));
}
