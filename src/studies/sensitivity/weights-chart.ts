import { nameIn } from '../../scenario/describe.js';
import { measureName } from '../../analysis/words.js';
import { numberText, percentText } from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import { uniqueLabels } from '../../report/text.js';
import { type Chart, looksOf } from '../../report/charts/chart.js';
import { forest } from '../../report/charts/forest.js';
import type { Sensitivity, Weight } from './results.js';
import { weightTable } from './tables.js';

const MOST = 18;
const KINDS = ['alone (first-order)', 'with its interactions (total)'];

function shown({ atOnce }: Sensitivity): readonly Weight[] {
  return (atOnce?.weights ?? []).filter(({ total }) => total > 0).slice(0, MOST);
}

/** Sobol' indices of all values. */
export const weightsChart: Chart<Sensitivity> = {
  id: 'weights',
  title: 'All values at once',
  caption: ({ atOnce, measure }) => {
    if (atOnce === null) return '';
    const { draws, replicationsPerDraw, explained } = atOnce;
    return `Shares of the variance of the expected difference in ${measureName(measure)} while all values are drawn at once (Sobol’ indices; ${numberText(draws)} draws, ${numberText(replicationsPerDraw)} replications of each, whose random variation is taken out). Where the total is larger than what a value explains alone, it interacts with others. All together explain ${percentText(explained)}; to which values the rest belongs, these draws do not tell.`;
  },
  alt: (result) =>
    `Points. ${listed(
      shown(result)
        .slice(0, 3)
        .map(
          ({ description, first, total }) =>
            `${nameIn(description)}: ${percentText(first)} alone, ${percentText(total)} in all`,
        ),
    )}.`,
  drawing: (result) => {
    const rows = shown(result);
    if (rows.length === 0) return null;
    const names = uniqueLabels(
      rows.map(({ description }) => nameIn(description)),
      46,
    );
    const most = Math.max(...rows.map(({ total }) => total));
    return forest({
      looks: looksOf(KINDS),
      legend: {},
      step: 26,
      panels: [
        {
          x: { title: 'Share of the variance (%)', domain: [0, 104 * most] },
          lines: [],
          rows: rows.map(({ first, total }, place) => ({
            name: names[place],
            items: [
              { look: KINDS[0], value: 100 * first },
              { look: KINDS[1], value: 100 * total },
            ],
          })),
        },
      ],
    });
  },
  table: ({ atOnce }) => weightTable(atOnce ?? { weights: [] }),
};
