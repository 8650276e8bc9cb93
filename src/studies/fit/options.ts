import { EXPOSURE_UNITS } from '../../scenario/exposure.js';
import { Failure } from '../../scenario/failure.js';
import { suggestion } from '../../scenario/nearest.js';
import { readQuantity } from '../../scenario/quantity.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { FITTED } from '../../survival/distributions.js';
import { aside, file, flag, meaning, meaningOfAll, oneOf, text, type Typed, type ValuesOf, whole } from '../options.js';
import { isDate } from './dates.js';
import { WORKFLOWS } from './drift/results.js';
import { CAUSE_NAMES } from '../../probe/causes.js';
import type { LogMapping } from './mapping.js';
import type { LogOptions } from './read-log.js';

/** Options of `fit`, in the order in which they go on record. */
export const FIT_OPTIONS = {
  into: file('Scenario into which what was fitted is written, comments kept'),
  radii: file('Table of measured radii: tip, path, load, radius, error'),
  mapping: file('File that says what columns and words mean [default: FILE.map.yaml, where it is]'),
  sheet: text('Sheet of a workbook that holds the log'),
  tip: meaningOfAll('KIND=NAME: what the scenario calls a kind of the log; NAME alone: the kind of all', kindsMeant),
  column: meaningOfAll(
    'NAME=HEAD: which column holds tip, kind, images, distance, ended, load …; disturbance, time, rate …',
    pairs('NAME=HEAD'),
  ),
  unit: meaningOfAll('COLUMN=UNIT: unit of a column whose head has none', pairs('COLUMN=UNIT')),
  per: meaningOfAll('CAUSE=UNIT: count this cause per image, distance, hour or approach', byCause(EXPOSURE_UNITS)),
  distribution: meaningOfAll(`CAUSE=DISTRIBUTION: ${FITTED.join(', ')} in place of the one by AIC`, byCause(FITTED)),
  settling: meaning('Of drift: time after which it counts as settled [default: 20 min]', settlingMeant),
  workflow: meaning('Of drift: the workflow for which it holds, swap or hop [default: both]', oneOf(WORKFLOWS)),
  date: meaning('Date of the log, such as 2031-05-17 [default: the last in it]', dateMeant),
  bootstrap: meaning('Bootstrap samples for the goodness of fit; 0: none', whole({ min: 0, max: 9999 }), '99'),
  seed: meaning('Seed text of the bootstrap samples', (typed) => typed, '1'),
  drift: flag('The file is a table of drift: disturbance, kind, time since, displacement or rate, error'),
  map: aside(
    flag(
      'Propose what columns and words of the log mean, ask, and write it to FILE.map.yaml, which is used from then on',
    ),
  ),
  skip: flag('Leave out rows that cannot be used; what that does is said first'),
};

/** What options say of a log; it stands before what the mapping says. */
export function logOptions(
  { tip: { kind, kinds }, column, unit }: Pick<ValuesOf<typeof FIT_OPTIONS>, 'tip' | 'column' | 'unit'>,
  mapping: LogMapping | null,
): LogOptions {
  return {
    kind: kind ?? mapping?.kind ?? null,
    endings: mapping?.endings ?? new Map<string, string>(),
    kinds,
    columns: new Map([...(mapping?.columns ?? []), ...column]),
    units: new Map([...(mapping?.units ?? []), ...unit]),
  };
}

/** Options that a log of tips takes and a table of drift does not, and the other way round. */
const OF_LOGS = ['radii', 'tip', 'per', 'distribution', 'bootstrap', 'seed', 'mapping', 'sheet'] as const;
const OF_DRIFT = ['settling', 'workflow'] as const;

export function refuseStrayOptions(isDrift: boolean, typed: Typed): void {
  const stray = (isDrift ? OF_LOGS : OF_DRIFT).filter((name) => typed[name] !== undefined);
  const why = isDrift ? 'is of a log of tips; with --drift the file is a table of drift' : 'wants --drift';
  if (stray.length > 0) throw new Failure(stray.map((name) => `--${name} ${why}`));
}

function kindsMeant(texts: readonly string[], name: string): Pick<LogOptions, 'kind' | 'kinds'> {
  const named = texts.filter((typed) => !typed.includes('='));
  if (named.length > 1)
    throw new Failure('--tip NAME says the kind of every tip, so it stands once; --tip KIND=NAME says it of one kind');
  // A kind of a log is called anything; no name in a scenario has the sign.
  const kinds = pairs('KIND=NAME', (typed) => typed.lastIndexOf('='));
  const renamed = texts.filter((typed) => typed.includes('='));
  return { kind: named.at(0) ?? null, kinds: kinds(renamed, name) };
}

function dateMeant(typed: string): string {
  if (isDate(typed)) return typed;
  throw new Failure(`--date wants a day as year-month-day, such as 2031-05-17, not "${typed}"`);
}

/** In seconds. */
function settlingMeant(typed: string): number {
  const settling = readQuantity('time', typed);
  if (!settling.ok) throw new Failure(`--settling: ${settling.message}`);
  if (settling.value < 0) throw new Failure(`--settling wants a time that is not below zero, not "${typed}"`);
  return settling.value;
}

function pairs(form: string, splitAt = (typed: string): number => typed.indexOf('=')) {
  return (texts: readonly string[], name: string): ReadonlyMap<string, string> =>
    new Map(
      texts.map((typed): [string, string] => {
        const at = splitAt(typed);
        if (at <= 0) throw new Failure(`--${name} wants ${form}, not "${typed}"`);
        return [typed.slice(0, at).trim(), typed.slice(at + 1).trim()];
      }),
    );
}

function byCause<T extends string>(choices: readonly T[]) {
  return (texts: readonly string[], option: string): ReadonlyMap<Cause, T> =>
    new Map(
      [...pairs(`CAUSE=${choices.join('|')}`)(texts, option)].map(([name, typed]): [Cause, T] => {
        const cause = CAUSE_NAMES.find((each) => each === name);
        const choice = choices.find((each) => each === typed.toLowerCase());
        if (cause === undefined)
          throw new Failure(`--${option} ${name}=…: no cause is called \`${name}\`${suggestion(name, CAUSE_NAMES)}`);
        if (choice === undefined)
          throw new Failure(`--${option} ${name}=${typed}: read \`${typed}\`${suggestion(typed, choices)}`);
        return [cause, choice];
      }),
    );
}
