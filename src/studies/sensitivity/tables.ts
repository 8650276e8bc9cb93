import { measureName } from '../../analysis/words.js';
import type { AtOnce, End, Sensitivity, Swing } from './results.js';
import { placeText } from '../../analysis/vary/axis.js';
import { estimateLine, estimateText, percentText, type Scale } from '../../wording/numbers.js';
import { scaleUpTo } from '../../report/measure-scale.js';
import { nameIn } from '../../scenario/describe.js';
import type { Table } from '../../report/table.js';
import { uniqueLabels } from '../../report/text.js';

export function sensitivityScale({ measure, swings, difference, scenario }: Sensitivity): Scale {
  const sizes = swings.flatMap(({ low, high }) => [low, high].map((end) => Math.abs(end.difference?.value ?? 0)));
  return scaleUpTo(measure, Math.max(Math.abs(difference.value), ...sizes), scenario.currency);
}

function endCell({ at, difference, notTried }: End, scale: Scale): string {
  return difference === null
    ? `${at}: not tried, ${notTried ?? ''}`
    : `${at}: ${estimateLine(difference, scale, 'difference')}`;
}

function turnCell({ turns, turning }: Swing): string {
  if (turns === null) return '';
  return turning === null ? turns : `${turning.side} ${placeText(turning, turning)}`;
}

/** One row a value, both ends of its range and where the verdict reverses. */
export function swingTable(result: Sensitivity): Table {
  const scale = sensitivityScale(result);
  return {
    columns: [
      { label: 'Value' },
      { label: 'Path' },
      { label: 'As it stands' },
      { label: `${measureName(result.measure)} at the lower limit` },
      { label: 'at the upper limit' },
      { label: 'Reverses' },
    ],
    rows: result.swings.map((swing) => [
      nameIn(swing.description),
      swing.path,
      swing.value,
      endCell(swing.low, scale),
      endCell(swing.high, scale),
      turnCell(swing),
    ]),
  };
}

/** The same for a terminal, with longer and shorter names: without intervals, and what changes nothing left out. */
export function shortSwingTables(result: Sensitivity): readonly Table[] {
  return [52, 46, 40, 34].map((longest) => shortSwingTable(result, longest));
}

function shortSwingTable(result: Sensitivity, longest: number): Table {
  const scale = sensitivityScale(result);
  const swings = result.swings.filter(
    ({ most: change, low, high }) => change > 0 || low.notTried !== null || high.notTried !== null,
  );
  const names = uniqueLabels(
    swings.map(({ description }) => nameIn(description)),
    longest,
  );
  const cell = ({ difference }: End) =>
    difference === null ? 'not tried' : estimateText(difference, scale, 'difference').value;
  return {
    columns: [
      { label: 'value' },
      { label: 'from', numeric: true },
      { label: 'to', numeric: true },
      { label: 'at that', numeric: true },
      { label: 'at this', numeric: true },
      { label: 'reverses', numeric: true },
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

/** One row a value: its shares of the variance of the difference. */
export function weightTable({ weights }: Pick<AtOnce, 'weights'>): Table {
  return {
    columns: [
      { label: 'Value' },
      { label: 'Path' },
      { label: 'Plausible range' },
      { label: 'First-order', numeric: true },
      { label: 'Total', numeric: true },
    ],
    rows: weights.map(({ path, description, within, first, total }) => [
      nameIn(description),
      path,
      within ?? '',
      percentText(first),
      percentText(total),
    ]),
  };
}
