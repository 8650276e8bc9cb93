import { ACTIVITIES, type Activity, ACTIVITY_NUMBER } from '../../../campaign/activities.js';
import { durationText } from '../../../report/format.js';
import { element } from '../../dom.js';

interface Row {
  readonly row: HTMLElement;
  readonly time: HTMLElement;
  readonly bar: HTMLElement;
}

/** Where the time went up to now: a row an activity, shown once there is some of it. */
export class TallyTable {
  readonly content: HTMLElement;
  private readonly rows: ReadonlyMap<Activity, Row>;

  constructor() {
    this.rows = new Map(ACTIVITIES.map((activity) => [activity, rowFor(activity)]));
    this.content = element(
      'table',
      { class: 'tally' },
      element('caption', {}, 'Where the time went'),
      element('tbody', {}, ...[...this.rows.values()].map(({ row }) => row)),
    );
  }

  show(tally: ReadonlyMap<Activity, number>): void {
    const most = Math.max(1, ...tally.values());
    for (const [activity, { row, time, bar }] of this.rows) {
      const spent = tally.get(activity) ?? 0;
      row.hidden = spent === 0;
      const text = durationText(spent);
      if (time.textContent !== text) time.textContent = text;
      bar.style.inlineSize = `${((100 * spent) / most).toFixed(1)}%`;
    }
  }
}

function rowFor(activity: Activity): Row {
  const time = element('td');
  const bar = element('div', { class: 'bar', style: `background:var(--activity-${ACTIVITY_NUMBER[activity] + 1})` });
  const row = element(
    'tr',
    { hidden: true },
    element('th', { scope: 'row' }, activity),
    time,
    element('td', { class: 'bars', 'aria-hidden': 'true' }, bar),
  );
  return { row, time, bar };
}
