import { durationText, fixed, numberText, SHARE } from '../../../report/format.js';
import { clockText } from '../../../study/timeline.js';
import { element } from '../../dom.js';
import { dataTable } from '../../figure.js';
import type { Account, AfternoonAnswer } from '../../tasks/afternoon.js';

type Afterwards = NonNullable<AfternoonAnswer['afterwards']>;

const ROWS: readonly (readonly [string, (account: Account) => string])[] = [
  ['Time from start to end', ({ totalTime }) => durationText(totalTime)],
  ['Scanning that was lost', ({ lostScanning }) => durationText(lostScanning)],
  ['Good images', ({ good }) => String(good)],
  ['Bad images that nobody noticed', ({ silentBad }) => String(silentBad)],
  ['Images given up or missing', ({ unkept }) => String(unkept)],
  ['Yield', (account) => numberText(account.yield, SHARE)],
  ['Takes', ({ takes }) => String(takes)],
  ['Tips used', ({ tips }) => String(tips)],
];

/** What the afternoon came to, beside what the rules would have made of the same luck. */
export function accountsTable({ accounts }: Afterwards): HTMLElement {
  return dataTable(
    'Your afternoon and the same one by the rules, on the same luck',
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
