import { missingVolumeFactor } from '../../probe/blunting.js';
import type { Place } from '../../scenario/places.js';
import { suggestion } from '../../scenario/nearest.js';
import { show } from '../../scenario/show.js';
import type { WearReading } from '../../survival/wear.js';
import { fitWear, type NoWearFit, type WearFit, type WearParameter } from '../../survival/wear.js';
import { type Measure, notationOf, PLAIN_NOTATION, readAmount, unitFactor } from './amounts.js';
import { roundedAll } from './hazard.js';
import { headOf } from './heads.js';
import type { BluntingFit, Interval, Uncertainty } from './results.js';
import { readSheet, type SheetRow } from '../../analysis/sheet.js';

/** Numbers of a radii table and the unit that each wants in its head. */
const NUMBERS = { path: 'distance', load: 'load', radius: 'radius', error: 'radius' } as const satisfies Record<
  string,
  Measure
>;
type NumberName = keyof typeof NUMBERS;
const NUMBER_NAMES: readonly NumberName[] = ['path', 'load', 'radius', 'error'];
const TEXT_NAMES = ['tip', 'kind'] as const;

/** Half-angle of a cone where no scenario says it, in degrees: the scenario schema's own default. */
const USUAL_HALF_ANGLE = 20;

export interface RadiusFault extends Place {
  readonly message: string;
}

export type ReadRadii =
  | {
      readonly ok: true;
      readonly readings: readonly (WearReading & { readonly kind: string })[];
      readonly faults: readonly RadiusFault[];
    }
  | { readonly ok: false; readonly faults: readonly RadiusFault[] };

/**
 * Reads a table of radii: tip, path, load, radius, error, and the kind where the log does not know the tip.
 * @param kindOf the kind of a tip of the log; null where that is not known
 */
export function readRadii(text: string, kindOf: (tip: string, kind: string) => string | null): ReadRadii {
  const sheet = readSheet(text);
  if (!sheet.ok) return sheet;
  const { head, rows } = sheet.sheet;
  const heads = head.cells.map(({ text: cell }) => headOf(cell));
  const indexOf = (name: string) => heads.findIndex((each) => each.name === name);
  const missing = ['tip', ...NUMBER_NAMES].filter((name) => indexOf(name) < 0);
  const faults: RadiusFault[] = missing.map((name) => ({
    ...head.place,
    message: `no column is called ${show(name)}; a table of radii has tip, path, load, radius and error${suggestion(
      name,
      heads.map((each) => each.name).filter((each) => each !== '' && !isKnown(each)),
    )}`,
  }));
  const factors = new Map<NumberName, number>();
  for (const name of NUMBER_NAMES.filter((each) => indexOf(each) >= 0)) {
    const factor = unitFactor(NUMBERS[name], heads[indexOf(name)].unit ?? '');
    if (factor.ok) factors.set(name, factor.value);
    else
      faults.push({
        ...head.cells[indexOf(name)].place,
        message: `the column ${show(name)} ${factor.message}, in its head as \`${name} [unit]\``,
      });
  }
  if (faults.length > 0) return { ok: false, faults };
  const textAt = ({ cells }: SheetRow, name: string) => cells.at(indexOf(name))?.text ?? '';
  const notations = new Map(NUMBER_NAMES.map((name) => [name, notationOf(rows.map((row) => textAt(row, name)))]));
  const readings = rows.flatMap((row) => {
    const refuse = (message: string, at = 0) => faults.push({ ...(row.cells.at(at)?.place ?? row.place), message });
    const before = faults.length;
    const numbers = NUMBER_NAMES.map((name) => {
      const text = textAt(row, name);
      const reading = readAmount(NUMBERS[name], text, factors.get(name) ?? 1, notations.get(name) ?? PLAIN_NOTATION);
      if (!reading.ok) refuse(`${show(name)}: ${reading.message}`, indexOf(name));
      else if (reading.value === 0 && (name === 'radius' || name === 'error'))
        refuse(`${show(name)}: more than zero is wanted`, indexOf(name));
      return reading.ok ? reading.value : 0;
    });
    const tip = textAt(row, 'tip');
    const kind = kindOf(tip, indexOf('kind') < 0 ? '' : textAt(row, 'kind'));
    if (tip === '') refuse('the tip has no name');
    else if (kind === null) refuse(`the log knows no tip ${show(tip)}; say its kind in a column \`kind\``);
    if (faults.length > before || kind === null) return [];
    const [path, load, radius, error] = numbers;
    return [{ kind, tip, path, load, radius, error }];
  });
  return { ok: true, readings, faults };
}

function isKnown(name: string): boolean {
  return [...NUMBER_NAMES, ...TEXT_NAMES].some((each) => each === name);
}

const WHY_NOT: Readonly<Record<NoWearFit['reason'], string>> = {
  'too-few-tips': 'radii of three tips at least are wanted',
  'no-wear-seen': 'no tip was read before and after sliding with a radius that grew',
  'no-finite-maximum': 'the likelihood has no highest point for these radii',
};

export type FittedBlunting =
  { readonly ok: true; readonly fit: BluntingFit } | { readonly ok: false; readonly message: string };

/**
 * Fits Archard's blunting to the readings of one kind.
 * @param halfAngle of the cone in degrees; null where no scenario says it
 */
export function fitBlunting(
  about: { readonly kind: string; readonly file: string; readonly sha256: string; readonly halfAngle: number | null },
  readings: readonly WearReading[],
  level: number,
): FittedBlunting {
  const halfAngle = about.halfAngle ?? USUAL_HALF_ANGLE;
  const fit = fitWear(readings, missingVolumeFactor(halfAngle), level);
  if (!fit.converged)
    return { ok: false, message: `radii of ${about.kind}: tip wear cannot be fitted; ${WHY_NOT[fit.reason]}` };
  const { tips } = fit;
  return {
    ok: true,
    fit: {
      ...about,
      halfAngle,
      tips,
      readings: readings.length,
      radius: intervalOf(fit, 'radius'),
      radiusGeometricSd: intervalOf(fit, 'radiusGeometricSd'),
      coefficient: intervalOf(fit, 'wear'),
      coefficientGeometricSd: intervalOf(fit, 'wearGeometricSd'),
      radiusUncertainty: uncertaintyOf(fit, { radius: 'nominal', radiusGeometricSd: 'geometricSd' }),
      wearUncertainty: uncertaintyOf(fit, { wear: 'coefficient', wearGeometricSd: 'geometricSd' }),
    },
  };
}

function intervalOf({ parameters }: WearFit, wanted: WearParameter): Interval {
  const { value, low, high } = parameters[indexIn(parameters, wanted)];
  return { value, low, high };
}

function indexIn(parameters: WearFit['parameters'], wanted: WearParameter): number {
  return parameters.findIndex(({ name }) => name === wanted);
}

/** Of the parameters by the names of the scenario; a geometric SD of none has no logarithm to be uncertain of. */
function uncertaintyOf(
  { parameters, covariance }: WearFit,
  names: Readonly<Partial<Record<WearParameter, string>>>,
): Uncertainty {
  const known = parameters.flatMap(({ name, value }, index) => {
    const called = names[name];
    return called === undefined || (called === 'geometricSd' && value === 1) ? [] : [{ called, index }];
  });
  return {
    of: known.map(({ called }) => called),
    covariance: roundedAll(known.map((row) => known.map((column) => covariance[row.index][column.index]))),
  };
}
