import { shortText } from './answer.js';
import { shownStanding } from './standings.js';
import type { TunedSetting, TuneResult } from './results.js';
import { settingText } from '../../analysis/vary/varied.js';
import { OPERATOR_TIME } from '../../analysis/words.js';
import type { Estimate } from '../../statistics/estimate.js';
import { estimateLine, estimateText, numberText, PLAIN, type Scale, SHARE } from '../../wording/numbers.js';
import { scaleUpTo } from '../../report/measure-scale.js';
import type { Table } from '../../report/table.js';
import { capital } from '../../wording/phrases.js';

/** Scale of what the goal comes to. */
export function goalScale(result: TuneResult): Scale {
  if (result.goal.unit === 'yield') return SHARE;
  const values = [...result.settings, result.present].map(({ goal }) => goal?.high ?? 0);
  return scaleUpTo(result.goal.unit, Math.max(...values), result.scenario.currency);
}

/** Scale of differences in the goal. */
export function lossScale(result: TuneResult): Scale {
  const losses = [...result.settings, result.present].flatMap(({ loss }) => (loss === null ? [] : [loss]));
  const largest = Math.max(0, ...losses.flatMap(({ low, high }) => [Math.abs(low), Math.abs(high)]));
  return scaleUpTo(result.goal.unit, largest, result.scenario.currency);
}

/** How a setting stands, in words; open where it was interrupted before they were compared. */
function standingText(result: TuneResult, setting: TunedSetting): string {
  const text = result.procedure.replications.comparison === 0 ? 'open' : shownStanding(setting, result);
  return setting.isPresent ? `${text}; present` : text;
}

/** Settings and the present one behind them, where it is none of them. */
export function allSettings({ settings, present }: TuneResult): readonly TunedSetting[] {
  return settings.some(({ isPresent }) => isPresent) ? settings : [...settings, present];
}

/** Most rows of a table that is read as a whole. */
const MOST_ROWS = 24;

/** The rows of a table in a terminal: all in their order, or the best of many. */
export function briefSettings(result: TuneResult): readonly TunedSetting[] {
  const all = allSettings(result);
  if (all.length <= MOST_ROWS) return all;
  const best = bestFirst(result).slice(0, MOST_ROWS / 2);
  return all.filter((each) => best.includes(each) || each.isPresent);
}

/** Those that meet the yield before the others, each by their goal. */
export function bestFirst(result: TuneResult): readonly TunedSetting[] {
  const sign = result.goal.sense === 'least' ? 1 : -1;
  const lacks = ({ meets }: TunedSetting) => (meets === 'fails' || meets === 'unclear' ? 1 : 0);
  return allSettings(result).toSorted(
    (a, b) =>
      lacks(a) - lacks(b) || sign * ((a.goal?.value ?? sign * Infinity) - (b.goal?.value ?? sign * Infinity)) || 0,
  );
}

/** A column of a table of settings: its label, and what it says of each. */
interface SettingColumn {
  readonly label: string;
  readonly cell: (setting: TunedSetting) => string;
}

/** A row a setting: what was set, what it comes to, how much worse than the winner that is, and the means of what goes with it. */
export function settingsTable(result: TuneResult, settings: readonly TunedSetting[]): Table {
  const scaleOf = (measure: 'time' | 'operatorTime' | 'cost') =>
    scaleUpTo(measure, Math.max(...settings.map(({ measures }) => measures[measure].high)), result.scenario.currency);
  const mean = (measure: 'time' | 'operatorTime' | 'cost', label: string): SettingColumn => {
    const scale = scaleOf(measure);
    return { label, cell: ({ measures }) => estimateText(measures[measure], scale).value };
  };
  const others: Readonly<Partial<Record<TuneResult['goal']['name'], SettingColumn>>> = {
    'least-time': mean('time', 'Instrument time'),
    'least-operator-time': mean('operatorTime', capital(OPERATOR_TIME)),
    'least-cost': mean('cost', 'Cost'),
  };
  return tableOf(
    result,
    settings,
    [goalColumn(result, capital(result.goal.title)), lossColumn(result, true)],
    [
      { label: 'Yield', cell: ({ measures }) => estimateLine(measures.yield, SHARE) },
      { label: 'Undetected bad', cell: ({ measures }) => estimateText(measures.undetectedBadShare, SHARE).value },
      { label: 'Tips', cell: ({ measures }) => estimateText(measures.tips, PLAIN).value },
      ...Object.entries(others).flatMap(([name, column]) => (name === result.goal.name ? [] : [column])),
    ],
  );
}

/** What of it has room in a terminal, from the widest to the narrowest. */
export function briefTables(result: TuneResult, settings: readonly TunedSetting[]): readonly Table[] {
  const goal = goalColumn(result, SHORT[result.goal.name] ?? 'Instrument time');
  const gain: SettingColumn = { label: 'Yield', cell: ({ measures }) => numberText(measures.yield.value, SHARE) };
  const silent: SettingColumn = {
    label: 'Undet. bad',
    cell: ({ measures }) => numberText(measures.undetectedBadShare.value, SHARE),
  };
  const tips: SettingColumn = { label: 'Tips', cell: ({ measures }) => numberText(measures.tips.value) };
  const data = result.goal.unit === 'yield' ? [silent] : [gain, silent];
  const [wide, narrow] = [lossColumn(result, true), lossColumn(result, false)];
  return [
    [goal, wide, ...data, tips],
    [goal, wide, ...data],
    [goal, wide, data[0]],
    [goal, narrow, ...data],
    [goal, narrow],
    [goal],
  ].map((columns) => tableOf(result, settings, columns));
}

const SHORT: Readonly<Partial<Record<TuneResult['goal']['name'], string>>> = {
  'least-operator-time': 'Operator time',
  'least-cost': 'Cost',
  'least-time-per-quality': 'Time per image',
  'most-yield': 'Yield in time',
};

function goalColumn(result: TuneResult, label: string): SettingColumn {
  const scale = goalScale(result);
  return { label, cell: ({ goal }) => (goal === null ? 'nothing good' : estimateLine(goal, scale)) };
}

function lossColumn(result: TuneResult, hasInterval: boolean): SettingColumn {
  const scale = lossScale(result);
  const say = (loss: Estimate) =>
    hasInterval ? estimateLine(loss, scale, 'difference') : estimateText(loss, scale, 'difference').value;
  return { label: 'Worse by', cell: ({ loss }) => (loss === null ? '' : say(loss)) };
}

/** The standing of each setting stands between what is most and what is less to the point. */
function tableOf(
  result: TuneResult,
  settings: readonly TunedSetting[],
  columns: readonly SettingColumn[],
  more: readonly SettingColumn[] = [],
): Table {
  return {
    columns: [
      ...result.varied.map(({ path }) => ({ label: path })),
      ...columns.map(({ label }) => ({ label, numeric: true })),
      { label: 'Standing' },
      ...more.map(({ label }) => ({ label, numeric: true })),
    ],
    rows: settings.map((setting) => [
      ...setting.settings.map(settingText),
      ...columns.map(({ cell }) => cell(setting)),
      standingText(result, setting),
      ...more.map(({ cell }) => cell(setting)),
    ]),
  };
}

/** Settings on one line, for axes and legends. */
export function axisLabel(setting: Pick<TunedSetting, 'settings'>): string {
  return shortText(setting.settings);
}
