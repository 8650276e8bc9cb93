import { measureName } from '../../study/breakeven/words.js';
import type { Effect, End, Sensitivity, Swing } from '../../study/sensitivity/results.js';
import { placeText } from '../../study/vary/axis.js';
import { estimateLine, estimateText, numberText, type Scale } from '../format.js';
import { measureScale } from '../study-facts.js';
import type { Table } from '../table.js';

export function sensitivityScale({ measure, swings, difference, scenario }: Sensitivity): Scale {
  const sizes = swings.flatMap(({ low, high }) => [low, high].map((end) => Math.abs(end.difference?.value ?? 0)));
  return measureScale(measure, Math.max(Math.abs(difference.value), ...sizes), scenario.currency);
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
      { label: `${measureName(result)} at the low end` },
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
  const cell = ({ at, difference }: End) =>
    difference === null ? `${at}: not tried` : `${at}: ${estimateText(difference, scale, true).value}`;
  return {
    columns: [{ label: 'value' }, { label: 'low end' }, { label: 'high end' }, { label: 'turns' }],
    rows: result.swings
      .filter(({ most: change, low, high }) => change > 0 || low.notTried !== null || high.notTried !== null)
      .slice(0, most)
      .map((swing) => [swing.path, cell(swing.low), cell(swing.high), turnCell(swing)]),
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
