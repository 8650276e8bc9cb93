import type { AboutLog, Acceleration, FitSummary, SuspicionBounds } from '../../study/fit/results.js';
import { lawName } from '../../study/fit/words.js';
import { fixed, numberText } from '../format.js';
import type { Table } from '../table.js';
import {
  allCauses,
  bluntingRows,
  causeTitle,
  chosenLaw,
  goodnessText,
  intervalText,
  parametersText,
  unitScale,
  valueText,
} from './words.js';

/** What was taken for each cause; what all is about. */
export function fitsTable(summary: FitSummary): Table {
  return {
    columns: [
      { label: 'Hazard' },
      { label: 'Events of tips', numeric: true },
      { label: 'Law' },
      { label: 'Parameters' },
      { label: 'Median life in the log', numeric: true },
      { label: 'Goodness of fit' },
    ],
    rows: allCauses(summary).map((fit) => {
      const law = chosenLaw(fit);
      const events = `${numberText(fit.events)} of ${numberText(fit.tips)}`;
      if (law === undefined)
        return [`${causeTitle(fit)}, per ${fit.per}`, events, 'none', constantText(fit.constantHazard), '', ''];
      const taken = fit.acceleration?.isTaken === true ? fit.acceleration : null;
      const median = fit.median === null ? '' : valueText(fit.median, unitScale(fit));
      return [
        `${causeTitle(fit)}, per ${fit.per}`,
        events,
        taken === null ? lawName(law.law) : `${lawName(law.law)}${atReference(taken)}`,
        parametersText(taken ?? law),
        median,
        goodnessText(fit),
      ];
    }),
  };
}

function constantText({ low, high }: { readonly low: number; readonly high: number | null }): string {
  return `mean life ${intervalText({ low, high })}, were the hazard constant`;
}

/** The load and pace at which a life is meant. */
function atReference({ referenceLoad, pace }: Acceleration): string {
  const load = referenceLoad === null ? '' : ` at ${numberText(referenceLoad, { divisor: 1, unit: 'nN' })}`;
  return pace === null ? load : `${load} and pace 1`;
}

/** Every law of every cause. */
export function lawsTable(summary: FitSummary): Table {
  return {
    columns: [
      { label: 'Hazard' },
      { label: 'Law' },
      { label: 'AIC above the least', numeric: true },
      { label: 'Log-likelihood', numeric: true },
      { label: 'Parameters' },
      { label: 'Mean life', numeric: true },
    ],
    rows: allCauses(summary).flatMap((fit) => [
      ...fit.laws.map((law) => [
        causeTitle(fit),
        `${lawName(law.law)}${law.law === fit.chosen?.law ? ' (taken)' : ''}`,
        fixed(law.aicAboveBest, 1),
        fixed(law.logLikelihood, 2),
        parametersText(law),
        numberText(law.mean, unitScale(fit)),
      ]),
      ...fit.notFitted.map(({ law, reason }) => [causeTitle(fit), lawName(law), '', '', reason, '']),
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
          isTaken ? 'yes' : 'no: the lives are fitted as well without',
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
      { label: 'Median life', numeric: true },
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
        row('as sound (long lives)', suspicion.asSound),
        row(`as ${fit.cause} (short lives)`, suspicion.asEvents),
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
      { label: 'Its spread', numeric: true },
      { label: 'New radius, nm', numeric: true },
      { label: 'Its spread', numeric: true },
    ],
    rows: blunting.map(bluntingRows),
  };
}

export function logNextTable({ logNext }: FitSummary): Table {
  return {
    columns: [{ label: 'What' }, { label: 'Median life, upper over lower end', numeric: true }, { label: 'Advice' }],
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
