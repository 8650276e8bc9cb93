import { nameIn } from '../../scenario/describe.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import type { BreakEven, BreakEvenLine } from './results.js';
import { placeText } from '../../analysis/vary/axis.js';
import { NEUTRALS } from '../../report/palette.js';
import { uniqueLabels } from '../../report/text.js';
import { planeTable } from './tables.js';
import { padded, rangeTitle } from '../../report/charts/axes.js';
import { type Chart, looksOf } from '../../report/charts/chart.js';
import { dots, line as joined, rule } from '../../report/charts/marks.js';
import { picture } from '../../report/charts/picture.js';

/** The break-even of the first path for each setting of the second, and who is better at every setting tried. */
export const planeChart: Chart<BreakEven> = {
  id: 'plane',
  title: 'The break-even line',
  caption: (result) =>
    `Bars are the ${numberText(result.level, SHARE)} intervals of the break-even in “${nameIn(result.range.description)}”, for each setting of “${result.across?.description ?? ''}”. Points are the settings tried, by who is better there, all settings of a column together; where neither is clearly better there is none.`,
  alt: (result) => {
    const crossed = result.lines.filter(({ crossings }) => crossings.length > 0);
    return crossed.length === 0
      ? 'Points only: there is no break-even.'
      : `Bars of the break-even among points that say who is better: ${listed(
          crossed.map(
            ({ across, crossings }) =>
              `${crossings.map((crossing) => placeText(result.range, crossing)).join(' and ')} at ${across ?? ''}`,
          ),
        )}.`;
  },
  drawing: (result) => {
    const { range, across, lines } = result;
    const numbers = lines.flatMap(({ acrossNumber }) => acrossNumber ?? []);
    const isNumber = numbers.length === lines.length;
    const at = ({ across: setting, acrossNumber }: BreakEvenLine) => (isNumber ? (acrossNumber ?? 0) : (setting ?? ''));
    const looks = looksOf(uniqueLabels(result.between, 30));
    const tried = lines.flatMap((line) =>
      line.points.flatMap(({ number, better }) =>
        better === null ? [] : [{ x: at(line), y: number, look: looks[result.between.indexOf(better)].name }],
      ),
    );
    const crossings = lines.flatMap((line) =>
      line.crossings.map(({ value, low, high }) => ({ x: at(line), value, low, high })),
    );
    const middles = crossings.map(({ x, value }) => ({ x, y: value }));
    const tone = NEUTRALS.ink;
    return picture({
      looks,
      legend: { title: 'Better' },
      panels: [
        {
          height: 380,
          x: isNumber
            ? {
                title: across === null ? null : rangeTitle(across.description, across.unit),
                isLog: across?.isLog ?? false,
                domain:
                  across?.isLog === true
                    ? [Math.min(...numbers) / 1.1, Math.max(...numbers) * 1.1]
                    : padded(numbers, 0.05, 1e-9),
              }
            : { title: rangeTitle(across?.description ?? ''), places: lines.map((line) => line.across ?? '') },
          y: { title: rangeTitle(range.description, range.unit), domain: [range.low, range.high], isLog: range.isLog },
          marks: [
            dots(tried, { size: 46, opacity: 0.85 }),
            ...(lines.every((line) => line.crossings.length <= 1)
              ? [joined(middles, { tone, width: 1.4, dash: [4, 3] })]
              : []),
            rule(
              crossings.map(({ x, low, high }) => ({ x, y: low, y2: high })),
              { tone, width: 2.4 },
            ),
            dots(middles, { tone, size: 60 }),
          ],
        },
      ],
    });
  },
  table: planeTable,
};
