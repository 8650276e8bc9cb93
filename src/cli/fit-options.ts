import { EXPOSURE_UNITS, type ExposureUnit } from '../scenario/exposure.js';
import { readQuantity } from '../scenario/quantity.js';
import { suggestion } from '../scenario/nearest.js';
import type { Cause } from '../scenario/schema/scenario.js';
import { isDate } from '../study/fit/dates.js';
import { type WorkflowName, WORKFLOWS } from '../study/fit/drift/results.js';
import { CAUSES } from '../study/fit/endings.js';
import type { LogOptions } from '../study/fit/read-log.js';
import type { ColumnOptions } from '../study/fit/taken.js';
import { type FittedLaw, LAWS_TO_FIT } from '../survival/laws.js';
import { Failure } from './failure.js';

export interface Given {
  readonly drift?: boolean | undefined;
  readonly radii?: string | undefined;
  readonly bootstrap?: string | undefined;
  readonly seed?: string | undefined;
  readonly settling?: string | undefined;
  readonly workflow?: string | undefined;
  readonly tip?: readonly string[] | undefined;
  readonly column?: readonly string[] | undefined;
  readonly unit?: readonly string[] | undefined;
  readonly per?: readonly string[] | undefined;
  readonly law?: readonly string[] | undefined;
  readonly date?: string | undefined;
}

/** What the options of `fit` say of the log and of its analysis; what cannot be meant is a usage error. */
export function readFitOptions(given: Given): {
  readonly log: LogOptions;
  readonly laws: ReadonlyMap<Cause, FittedLaw>;
  readonly units: ReadonlyMap<Cause, ExposureUnit>;
} {
  const { tip = [] } = given;
  checkDate(given);
  const named = tip.filter((text) => !text.includes('='));
  if (named.length > 1)
    throw new Failure('--tip NAME says the kind of every tip, so it stands once; --tip KIND=NAME says it of one kind');
  return {
    log: {
      kind: named.at(0) ?? null,
      kinds: pairs(
        'tip',
        tip.filter((text) => text.includes('=')),
        'KIND=NAME',
        // A kind of a log is called anything; no name in a scenario has the sign.
        (text) => text.lastIndexOf('='),
      ),
      ...columnOptions(given),
    },
    laws: byCause(
      'law',
      given.law,
      Object.values(LAWS_TO_FIT).map(({ law }) => law),
    ),
    units: byCause('per', given.per, EXPOSURE_UNITS),
  };
}

/** Options that a log of tips takes and a table of drift does not, and the other way round. */
const OF_LOGS = ['radii', 'tip', 'per', 'law', 'bootstrap', 'seed'] as const;
const OF_DRIFT = ['settling', 'workflow'] as const;

export function refuseStrayOptions(given: Given): void {
  const stray = (given.drift === true ? OF_LOGS : OF_DRIFT).filter((name) => given[name] !== undefined);
  const why = given.drift === true ? 'is of a log of tips; with --drift the file is a table of drift' : 'wants --drift';
  if (stray.length > 0) throw new Failure(stray.map((name) => `--${name} ${why}`));
}

function checkDate({ date }: Given): void {
  if (date !== undefined && !isDate(date))
    throw new Failure(`--date wants a day as year-month-day, such as 2031-05-17, not "${date}"`);
}

function columnOptions(given: Given): ColumnOptions {
  return {
    columns: pairs('column', given.column, 'NAME=HEAD'),
    units: pairs('unit', given.unit, 'COLUMN=UNIT'),
  };
}

const USUAL_SETTLING = '20 min';

/** What the options of `fit --drift` say of the table and of its analysis. */
export function readDriftOptions(given: Given): {
  readonly table: ColumnOptions;
  /** Seconds. */
  readonly settling: number;
  readonly workflows: readonly WorkflowName[];
} {
  checkDate(given);
  const settling = readQuantity('time', given.settling ?? USUAL_SETTLING);
  if (!settling.ok) throw new Failure(`--settling: ${settling.message}`);
  if (settling.value < 0) throw new Failure(`--settling wants a time that is not below zero, not "${given.settling}"`);
  return {
    table: columnOptions(given),
    settling: settling.value,
    workflows: WORKFLOWS.filter((name) => name === (given.workflow ?? name)),
  };
}

function pairs(
  option: string,
  texts: readonly string[] = [],
  form: string,
  splitAt = (text: string): number => text.indexOf('='),
): ReadonlyMap<string, string> {
  return new Map(
    texts.map((text): [string, string] => {
      const at = splitAt(text);
      if (at <= 0) throw new Failure(`--${option} wants ${form}, not "${text}"`);
      return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
    }),
  );
}

function byCause<T extends string>(
  option: string,
  texts: readonly string[] | undefined,
  choices: readonly T[],
): ReadonlyMap<Cause, T> {
  return new Map(
    [...pairs(option, texts, `CAUSE=${choices.join('|')}`)].map(([name, text]): [Cause, T] => {
      const cause = CAUSES.find((each) => each === name);
      const choice = choices.find((each) => each === text.toLowerCase());
      if (cause === undefined)
        throw new Failure(`--${option} ${name}=…: no cause is called \`${name}\`${suggestion(name, CAUSES)}`);
      if (choice === undefined)
        throw new Failure(`--${option} ${name}=${text}: read \`${text}\`${suggestion(text, choices)}`);
      return [cause, choice];
    }),
  );
}
