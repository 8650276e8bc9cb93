import { type Chart, looksOf } from '../../report/charts/chart.js';
import { forest } from '../../report/charts/forest.js';
import { uniqueLabels } from '../../report/text.js';
import { percentText } from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import { valuesTable } from '../../report/worth-tables.js';
import type { WorthSummary } from './results.js';

import { hoursText } from '../../analysis/worth/words.js';

const MOST = 12;
const SAVED = 'Saved a campaign';
/** Hours that the axis shows at least. */
const LEAST = 0.1;

function shown({ values, perfect }: WorthSummary) {
  const worthwhile = values.filter(({ hours }) => hours.high > 0).slice(0, MOST);
  return [{ description: 'everything', hours: perfect.hours }, ...worthwhile];
}

/** What knowing each value exactly would save, with its interval. */
export const worthChart: Chart<WorthSummary> = {
  id: 'worth',
  title: 'What knowing a value exactly would save',
  caption: ({ confidence }) =>
    `Instrument time that is saved on average by choosing once a value, or a group of them, is known, with ${percentText(confidence.level)} intervals; nothing measured can be worth more than this. Values that could not change the choice are left out.`,
  alt: (result) =>
    `Points with intervals. ${listed(
      shown(result)
        .slice(0, 3)
        .map(({ description, hours }) => `${description}: ${hoursText(hours.value)}`),
    )}.`,
  drawing: (result) => {
    if (result.perfect.hours.high === 0) return null;
    const rows = shown(result);
    const names = uniqueLabels(
      rows.map(({ description }) => description),
      46,
    );
    const most = Math.max(LEAST, ...rows.map(({ hours }) => hours.high));
    return forest({
      looks: looksOf([SAVED]),
      step: 26,
      panels: [
        {
          x: { title: `${SAVED} (h)`, domain: [0, 1.04 * most] },
          lines: [],
          rows: rows.map(({ hours }, place) => ({ name: names[place], items: [{ look: SAVED, ...hours }] })),
        },
      ],
    });
  },
  table: (result) => valuesTable(result, result.scenario.currency),
};
