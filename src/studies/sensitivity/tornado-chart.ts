import { estimateLine, numberText, SHARE, unitName } from '../../wording/numbers.js';
import { nameIn } from '../../scenario/describe.js';
import { listed } from '../../wording/phrases.js';
import { measureName } from '../../analysis/words.js';
import type { Sensitivity, Swing } from './results.js';
import { STRATEGY_TONES } from '../../report/palette.js';
import { uniqueLabels } from '../../report/text.js';
import { sensitivityScale, swingTable } from './tables.js';
import { padded } from '../../report/charts/axes.js';
import type { Chart } from '../../report/charts/chart.js';
import { forest } from '../../report/charts/forest.js';

const MOST = 18;

const ENDS = [
  { name: 'at its lower limit', tone: STRATEGY_TONES[1] },
  { name: 'at its upper limit', tone: STRATEGY_TONES[0] },
];

/** Values that change something, the most first. */
function shown({ swings }: Sensitivity): readonly Swing[] {
  return swings.filter(({ most }) => most > 0).slice(0, MOST);
}

/** The difference at both ends of each range, one value at a time. */
export const tornadoChart: Chart<Sensitivity> = {
  id: 'tornado',
  title: 'One value at a time',
  caption: (result) => {
    const [first, second] = result.between;
    const rows = shown(result);
    const rest = result.swings.length - rows.length;
    return `Difference in ${measureName(result.measure)}, “${second}” − “${first}”, with each value at its range limits and all others as they stand; thin lines are ${numberText(result.level, SHARE)} intervals, each by itself. The dashed vertical line is the difference with all values as they stand; bars that reach over the zero line reverse the verdict.${rest > 0 ? ` ${numberText(rest)} more change it less or not at all.` : ''}`;
  },
  alt: (result) => {
    const scale = sensitivityScale(result);
    return `Bars about ${estimateLine(result.difference, scale, 'difference')}. ${listed(
      shown(result)
        .slice(0, 3)
        .map(
          ({ description, low, high }) =>
            `${nameIn(description)} from ${numberText(low.difference?.value ?? 0, scale)} to ${numberText(high.difference?.value ?? 0, scale)}`,
        ),
    )}.`;
  },
  drawing: (result) => {
    const rows = shown(result);
    if (rows.length === 0) return null;
    const scale = sensitivityScale(result);
    const names = uniqueLabels(
      rows.map(({ description }) => nameIn(description)),
      46,
    );
    const centre = result.difference.value / scale.divisor;
    const items = rows.map(({ low, high }) =>
      [low, high].flatMap(({ difference }, place) => {
        if (difference === null) return [];
        const span = { low: difference.low / scale.divisor, high: difference.high / scale.divisor };
        return [{ look: ENDS[place].name, bar: [centre, difference.value / scale.divisor] as const, ...span }];
      }),
    );
    const domain = padded([0, centre, ...items.flat().flatMap(({ low, high }) => [low, high])], 0.04, 1e-9);
    const unit = scale.unit === '' ? '' : ` (${unitName(scale)})`;
    return forest({
      looks: ENDS,
      legend: { symbol: 'square' },
      step: 26,
      panels: [
        {
          x: { title: `Difference in ${measureName(result.measure)}${unit}`, domain },
          lines: [{ at: 0 }, { at: centre, isDashed: true }],
          rows: items.map((each, place) => ({ name: names[place], items: each })),
        },
      ],
    });
  },
  table: swingTable,
};
