import { counted } from '../../../wording/phrases.js';
import type { Estimate } from '../../../statistics/estimate.js';
import { matters } from '../../../analysis/interest.js';
import type { Difference, MeasureSummary, StrategySummary, Summary } from '../../../analysis/results.js';
import { timeScale } from '../../../report/charts/chart.js';
import { measureScale } from '../../../report/measure-scale.js';
import {
  estimateText,
  type EstimateText,
  moneyScale,
  numberText,
  percentAsked,
  PLAIN,
  type Scale,
  SHARE,
} from '../../../wording/numbers.js';
import type { Table } from '../../../report/table.js';
import { differenceOf } from '../headline-sentence.js';

/** What every page of a comparison is, above its title. */
export const KICKER = 'Simulation: swap and array-hop compared for one measurement plan';

/** One column of the table of the verdict, for pages, terminals and proposals alike. */
export interface HeadlineColumn {
  readonly label: string;
  /** Broken into two lines where there is little room. */
  readonly short: readonly [string, string];
  readonly cells: readonly HeadlineCell[];
}

export interface HeadlineCell extends EstimateText {
  /** `↑` or `↓` where it differs from the first strategy by what matters. */
  readonly mark: '↑' | '↓' | '';
  /** The best mean of a measure in which some strategy differs by what matters. */
  readonly isBest: boolean;
}

/** The seven numbers that a verdict rests on. Completion carries its interval and no mark. */
export function headlineColumns(summary: Summary): readonly HeadlineColumn[] {
  const { allocation } = summary;
  const measured = (
    label: string,
    short: HeadlineColumn['short'],
    measure: Difference['measure'],
    scale: Scale,
    of: (strategy: StrategySummary) => Estimate,
  ): HeadlineColumn => {
    const best = bestIn(summary, measure, of);
    return {
      label,
      short,
      cells: summary.strategies.map((strategy) => ({
        ...estimateText(of(strategy), scale),
        mark: markOf(differenceOf(strategy.name, measure, summary)),
        isBest: strategy.name === best,
      })),
    };
  };
  return [
    measured(
      'Instrument time',
      ['instrument', 'time'],
      'time',
      timeScale(summary),
      ({ measures }) => measures.instrumentTime,
    ),
    measured(
      'Operator time',
      ['operator', 'time'],
      'operatorTime',
      measureScale('operatorTime', summary),
      ({ measures }) => measures.operatorTime,
    ),
    {
      label: allocation === null ? 'Complete' : `Complete in ${allocation.text}`,
      short: allocation === null ? ['', 'complete'] : ['complete in', allocation.text],
      cells: summary.strategies.map(({ withinAllocation, finishes }) => ({
        ...estimateText(withinAllocation ?? finishes, SHARE),
        mark: '',
        isBest: false,
      })),
    },
    measured('Yield', ['', 'yield'], 'yield', SHARE, ({ measures }) => measures.yield),
    measured(
      'Undetected bad',
      ['undetected', 'bad'],
      'undetectedBadShare',
      SHARE,
      ({ measures }) => measures.undetectedBadShare,
    ),
    measured('Tips', ['', 'tips'], 'tips', PLAIN, ({ measures }) => measures.tips),
    measured('Cost', ['', 'cost'], 'cost', moneyScale(summary.scenario.currency), ({ measures }) => measures.cost),
  ];
}

function markOf(difference: Difference | undefined): HeadlineCell['mark'] {
  if (difference === undefined || !matters(difference)) return '';
  return difference.verdict === 'more' ? '↑' : '↓';
}

/** The strategy of the best mean; null where none differs from the first by what matters. */
function bestIn(
  summary: Summary,
  measure: Difference['measure'],
  of: (strategy: StrategySummary) => Estimate,
): string | null {
  if (!summary.differences.some((difference) => difference.measure === measure && matters(difference))) return null;
  const sign = measure === 'yield' ? -1 : 1;
  const [best] = summary.strategies.toSorted((a, b) => sign * (of(a).value - of(b).value));
  return best.name;
}

/** What the marks mean, and from which size on a difference matters; nothing where there is nothing to compare. */
export function marksNote({ strategies, differences }: Summary): string {
  if (differences.length === 0) return '';
  const [first] = strategies;
  const smallest = (measure: Difference['measure']) =>
    differences.find((difference) => difference.measure === measure)?.smallest ?? 0;
  const share = (measure: 'time' | 'operatorTime' | 'tips' | 'cost') => {
    const { value } = first.measures[measure === 'time' ? 'instrumentTime' : measure];
    return value === 0 ? null : smallest(measure) / value;
  };
  const sizes = new Map<string, string[]>();
  for (const [name, size] of [
    ['time', share('time')],
    ['operator time', share('operatorTime')],
    ['tips', share('tips')],
    ['cost', share('cost')],
  ] as const) {
    if (size !== null) sizes.set(percentAsked(size), [...(sizes.get(percentAsked(size)) ?? []), name]);
  }
  const relative = [...sizes].map(([size, names]) => `${size} in ${names.join(', ')}`);
  const points = `${counted(100 * smallest('yield'), 'percentage point')} in yield, ${numberText(100 * smallest('undetectedBadShare'))} in undetected bad`;
  return `↑ ↓: clear difference from “${first.name}” that matters; best: the best mean there. What matters: ${relative.join('; ')} of “${first.name}”; ${points}.`;
}

/** What the columns mean; the text for proposals says it too. */
export const HEADLINE_NOTE =
  'Yield weighs each good image by its quality and by what it is worth; nothing else counts in it. ' +
  'Undetected bad is the share of the planned images that are kept though they are bad, which nobody notices; ' +
  'the apparent yield adds what quality those have, and no verdict uses it. Operator time is all that an operator does, preparation at the bench included. A chip that is opened costs its whole price.';

/** What stands behind the seven numbers: the bad tail, and what a laboratory would believe it has. */
export function furtherTable(summary: Summary): Table {
  const time = timeScale(summary);
  return {
    columns: [
      { label: 'Strategy' },
      { label: 'Instrument time, 90th percentile', numeric: true },
      { label: 'Tips, 90th percentile', numeric: true },
      { label: 'Apparent yield', numeric: true },
    ],
    rows: summary.strategies.map(({ name, measures }) => {
      const { value, interval } = estimateText(measures.apparentYield, SHARE);
      return [
        name,
        percentile90(measures.instrumentTime, time),
        percentile90(measures.tips, PLAIN),
        interval === '' ? value : `${value} (${interval})`,
      ];
    }),
  };
}

function percentile90({ quantiles }: MeasureSummary, scale: Scale): string {
  const found = quantiles.find(({ probability }) => Math.abs(probability - 0.9) < 1e-9);
  return found === undefined ? '–' : numberText(found.value, scale);
}
