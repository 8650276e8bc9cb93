import { measureName } from '../../study/words.js';
import type { Effect, End, Sensitivity, Swing } from '../../study/sensitivity/results.js';
import { placeText } from '../../study/vary/axis.js';
import { estimateLine, estimateText, numberText, type Scale } from '../format.js';
import { scaleUpTo } from '../measure-scale.js';
import type { Table } from '../table.js';
import { uniqueLabels } from '../text.js';

export function sensitivityScale({ measure, swings, difference, scenario }: Sensitivity): Scale {
  const sizes = swings.flatMap(({ low, high }) => [low, high].map((end) => Math.abs(end.difference?.value ?? 0)));
  return scaleUpTo(measure, Math.max(Math.abs(difference.value), ...sizes), scenario.currency);
}

function endCell({ at, difference, notTried }: End, scale: Scale): string {
  return difference === null
    ? `${at}: not tried, ${notTried ?? ''}`
    : `${at}: ${estimateLine(difference, scale, true)}`;
}

function turnCell({ turns, turning }: Swing): string {
  if (turns === null) return '';
  return turning === null ? turns : `${turning.side} ${placeText(turning, turning)}`;
}

/** One row a value, both ends of its range and where the verdict turns. */
export function swingTable(result: Sensitivity): Table {
  const scale = sensitivityScale(result);
  return {
    columns: [
      { label: 'Value' },
      { label: 'As it stands' },
      { label: `${measureName(result.measure)} at the low end` },
      { label: 'at the high end' },
      { label: 'Turns' },
    ],
    rows: result.swings.map((swing) => [
      swing.path,
      swing.value,
      endCell(swing.low, scale),
      endCell(swing.high, scale),
      turnCell(swing),
    ]),
  };
}

/** The same for a terminal: without intervals, and what changes nothing left out. */
export function shortSwingTable(result: Sensitivity, most: number): Table {
  const scale = sensitivityScale(result);
  const swings = result.swings
    .filter(({ most: change, low, high }) => change > 0 || low.notTried !== null || high.notTried !== null)
    .slice(0, most);
  const names = uniqueLabels(
    swings.map(({ path }) => path),
    44,
  );
  const cell = ({ difference }: End) =>
    difference === null ? 'not tried' : estimateText(difference, scale, true).value;
  return {
    columns: [
      { label: 'value' },
      { label: 'from', numeric: true },
      { label: 'to', numeric: true },
      { label: 'there', numeric: true },
      { label: 'and there', numeric: true },
      { label: 'turns', numeric: true },
    ],
    rows: swings.map(({ low, high, turns, turning }, place) => [
      names[place],
      low.at,
      high.at,
      cell(low),
      cell(high),
      turning === null
        ? turns === null
          ? ''
          : 'yes'
        : `${turning.side} ${placeText(turning, turning).replace(/ \(.*/u, '')}`,
    ]),
  };
}

/** One row a value: elementary effects. */
export function effectTable(result: Sensitivity, effects: readonly Effect[]): Table {
  const scale = sensitivityScale(result);
  return {
    columns: [
      { label: 'Value' },
      { label: 'mu* (mean size)', numeric: true },
      { label: 'mu (mean)', numeric: true },
      { label: 'sigma (spread)', numeric: true },
      { label: 'Effects', numeric: true },
    ],
    rows: effects.map(({ path, muStar, mu, sigma, effects: count }) => [
      path,
      estimateLine(muStar, scale),
      numberText(mu, scale),
      numberText(sigma, scale),
      numberText(count),
    ]),
  };
}
