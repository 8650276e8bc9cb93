import type { AboutLog, Acceleration, FitSummary, SuspicionBounds } from './results.js';
import { distributionName } from './words.js';
import { fixed, numberText } from '../../wording/numbers.js';
import { declaredOf } from '../../probe/causes.js';
import type { Table } from '../../report/table.js';
import {
  allCauses,
  bluntingRows,
  causeTitle,
  chosenDistribution,
  goodnessText,
  intervalText,
  updatedText,
  parametersText,
  unitScale,
  valueText,
} from './report-words.js';

/** What was taken for each cause; what all is about. */
export function fitsTable(summary: FitSummary): Table {
  return {
    columns: [
      { label: 'Hazard' },
      { label: 'Events of tips', numeric: true },
      { label: 'Distribution' },
      { label: 'Parameters' },
      { label: 'Median lifetime, log alone', numeric: true },
      { label: 'Goodness of fit' },
    ],
    rows: allCauses(summary).map((fit) => {
      const distribution = chosenDistribution(fit);
      const events = `${numberText(fit.events)} of ${numberText(fit.tips)}`;
      if (distribution === undefined)
        return fit.posterior === null
          ? [`${causeTitle(fit)}, per ${fit.per}`, events, 'none', constantText(fit.constantHazard), '', '']
          : [
              `${causeTitle(fit)}, per ${fit.per}`,
              events,
              updatedText(fit.posterior),
              parametersText(fit.posterior),
              '',
              '',
            ];
      const taken = fit.acceleration?.isTaken === true ? fit.acceleration : null;
      const median = fit.median === null ? '' : valueText(fit.median, unitScale(fit));
      return [
        `${causeTitle(fit)}, per ${fit.per}`,
        events,
        taken === null
          ? fit.posterior === null
            ? distributionName(distribution.distribution)
            : updatedText(fit.posterior)
          : `${distributionName(distribution.distribution)}${atReference(taken)}`,
        parametersText(fit.posterior ?? taken ?? distribution),
        median,
        goodnessText(fit),
      ];
    }),
  };
}

function constantText({ low, high }: { readonly low: number; readonly high: number | null }): string {
  return `mean lifetime ${intervalText({ low, high })}, were the hazard constant`;
}

/** The load and pace at which a life is meant. */
function atReference({ referenceLoad, pace }: Acceleration): string {
  const load = referenceLoad === null ? '' : ` at ${numberText(referenceLoad, { divisor: 1, unit: 'nN' })}`;
  return pace === null ? load : `${load} and pace 1`;
}

/** Every distribution of every cause. */
export function distributionsTable(summary: FitSummary): Table {
  return {
    columns: [
      { label: 'Hazard' },
      { label: 'Distribution' },
      { label: 'AIC above the least', numeric: true },
      { label: 'Log-likelihood', numeric: true },
      { label: 'Parameters' },
      { label: 'Mean lifetime', numeric: true },
    ],
    rows: allCauses(summary).flatMap((fit) => [
      ...fit.distributions.map((distribution) => [
        causeTitle(fit),
        `${distributionName(distribution.distribution)}${distribution.distribution === fit.chosen?.distribution ? ' (taken)' : ''}`,
        fixed(distribution.aicAboveBest, 1),
        fixed(distribution.logLikelihood, 2),
        parametersText(distribution),
        numberText(distribution.mean, unitScale(fit)),
      ]),
      ...fit.notFitted.map(({ distribution, reason }) => [
        causeTitle(fit),
        distributionName(distribution),
        '',
        '',
        reason,
        '',
      ]),
    ]),
  };
}

export function accelerationTable(summary: FitSummary): Table {
  return {
    columns: [
      { label: 'Hazard' },
      { label: 'Exponent of load', numeric: true },
      { label: 'Exponent of pace', numeric: true },
      { label: 'Reference load', numeric: true },
      { label: 'AIC less by', numeric: true },
      { label: 'Taken' },
    ],
    rows: allCauses(summary).flatMap((fit) => {
      const { acceleration } = fit;
      if (acceleration === null) return [];
      const { load, pace, referenceLoad, aicGain, isTaken } = acceleration;
      return [
        [
          causeTitle(fit),
          load === null ? '' : valueText(load),
          pace === null ? '' : valueText(pace),
          referenceLoad === null ? '' : numberText(referenceLoad, { divisor: 1, unit: 'nN' }),
          fixed(aicGain, 1),
          isTaken ? 'yes' : 'no: the lifetimes are fitted as well without',
        ],
      ];
    }),
  };
}

export function suspicionTable(summary: FitSummary): Table {
  return {
    columns: [
      { label: 'Hazard' },
      { label: 'Tips on suspicion' },
      { label: 'Events', numeric: true },
      { label: 'Median lifetime', numeric: true },
    ],
    rows: allCauses(summary).flatMap((fit) => {
      const { suspicion } = fit;
      if (suspicion === null) return [];
      const row = (meaning: string, { events, median }: SuspicionBounds['asSound']) => [
        causeTitle(fit),
        `${numberText(suspicion.tips)} ${meaning}`,
        numberText(events),
        median === null ? 'no fit' : valueText(median, unitScale(fit)),
      ];
      return [
        row('as sound (long lifetimes)', suspicion.asSound),
        row(`as ${declaredOf(fit.cause).title} (short lifetimes)`, suspicion.asEvents),
      ];
    }),
  };
}

export function bluntingTable({ blunting }: FitSummary): Table {
  return {
    columns: [
      { label: 'Kind' },
      { label: 'Readings' },
      { label: 'Wear coefficient, nm³/(nN mm)', numeric: true },
      { label: 'Geometric SD', numeric: true },
      { label: 'New radius, nm', numeric: true },
      { label: 'Geometric SD', numeric: true },
    ],
    rows: blunting.map(bluntingRows),
  };
}

export function logNextTable({ logNext }: FitSummary): Table {
  return {
    columns: [
      { label: 'What' },
      { label: 'Median lifetime, upper over lower end', numeric: true },
      { label: 'Advice' },
    ],
    rows: logNext.map(({ what, cause, ratio, advice }) => [
      what,
      cause === null ? '' : ratio === null ? 'an end is open' : `× ${numberText(ratio)}`,
      advice,
    ]),
  };
}

export function rowsTable(log: AboutLog): Table {
  return {
    columns: [{ label: 'Line', numeric: true }, { label: 'Column', numeric: true }, { label: 'Why it is not used' }],
    rows: log.notUsed.map(({ line, column, message }) => [
      String(line),
      String(column),
      message.replaceAll('`', '”').replace(/”([^”]*)”/gu, '“$1”'),
    ]),
  };
}

export function columnsTable(log: AboutLog): Table {
  return {
    columns: [{ label: 'Column' }, { label: 'Read as' }, { label: 'Unit' }],
    rows: [
      ...log.columns.map(({ header, role, unit }) => [header, role, unit ?? '']),
      ...log.unread.map((header) => [header, 'not read', '']),
    ],
  };
}

export function readAsTable(log: AboutLog): Table {
  return {
    columns: [{ label: 'Word' }, { label: 'Read as' }, { label: 'Rows', numeric: true }],
    rows: log.readAs.map(({ word, meant, rows }) => [word, meant, numberText(rows)]),
  };
}
