import { shortText } from '../../study/tune/answer.js';
import type { TunedSetting, TuneResult } from '../../study/tune/results.js';
import { settingText } from '../../study/vary/varied.js';
import { OPERATOR_TIME } from '../../study/words.js';
import type { Estimate } from '../../study/results.js';
import { estimateLine, estimateText, numberText, PLAIN, type Scale, SHARE } from '../format.js';
import { scaleUpTo } from '../measure-scale.js';
import type { Table } from '../table.js';

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

/** How a setting stands, in words; open where somebody stopped it before they were compared. */
function standingText({ procedure }: TuneResult, { standing, isPresent }: TunedSetting): string {
  const text = procedure.replications.comparison === 0 ? 'open' : standing;
  return isPresent ? `${text}; present` : text;
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
  const lacks = ({ meets }: TunedSetting) => (meets === 'fails' || meets === 'not told' ? 1 : 0);
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

/** A row a setting: what was set, what it comes to, how much worse than the winner that is, and what goes with it. */
export function settingsTable(result: TuneResult, settings: readonly TunedSetting[]): Table {
  const time = scaleUpTo('time', Math.max(...settings.map(({ measures }) => measures.time.high)), '');
  const operator = scaleUpTo(
    'operatorTime',
    Math.max(...settings.map(({ measures }) => measures.operatorTime.high)),
    '',
  );
  const money = scaleUpTo('cost', 0, result.scenario.currency);
  const isOf = (name: TuneResult['goal']['name']) => result.goal.name === name;
  const first = [goalColumn(result, capital(result.goal.title)), lossColumn(result, true)];
  return tableOf(result, settings, first, [
    { label: 'Yield', cell: ({ measures }) => estimateLine(measures.yield, SHARE) },
    { label: 'Silent-bad share', cell: ({ measures }) => estimateLine(measures.silentBadShare, SHARE) },
    { label: 'Tips', cell: ({ measures }) => estimateLine(measures.tips, PLAIN) },
    ...(isOf('least-time')
      ? []
      : [{ label: 'Instrument time', cell: ({ measures }: TunedSetting) => estimateLine(measures.time, time) }]),
    ...(isOf('least-operator-time')
      ? []
      : [
          {
            label: capital(OPERATOR_TIME),
            cell: ({ measures }: TunedSetting) => estimateLine(measures.operatorTime, operator),
          },
        ]),
    ...(isOf('least-cost')
      ? []
      : [{ label: 'Cost', cell: ({ measures }: TunedSetting) => estimateLine(measures.cost, money) }]),
  ]);
}

/** What of it has room in a terminal, from the widest to the narrowest. */
export function briefTables(result: TuneResult, settings: readonly TunedSetting[]): readonly Table[] {
  const goal = goalColumn(result, SHORT[result.goal.name] ?? 'Instrument time');
  const gain: SettingColumn = { label: 'Yield', cell: ({ measures }) => numberText(measures.yield.value, SHARE) };
  const silent: SettingColumn = {
    label: 'Undet. bad',
    cell: ({ measures }) => numberText(measures.silentBadShare.value, SHARE),
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
  'least-time-per-image': 'Time per image',
  'most-yield': 'Yield in time',
};

function goalColumn(result: TuneResult, label: string): SettingColumn {
  const scale = goalScale(result);
  return { label, cell: ({ goal }) => (goal === null ? 'nothing good' : estimateLine(goal, scale)) };
}

function lossColumn(result: TuneResult, hasInterval: boolean): SettingColumn {
  const scale = lossScale(result);
  const say = (loss: Estimate) =>
    hasInterval ? estimateLine(loss, scale, true) : estimateText(loss, scale, true).value;
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

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
