import type { ExposureUnit } from '../../scenario/exposure.js';
import type { BluntingFit, CauseFit, FitSummary, FittedHazard, Uncertainty } from './results.js';
import { rounded } from './hazard.js';
import { counted } from '../../wording/phrases.js';
import { unitText } from './words.js';

/** Plain data as a scenario file holds it. */
export type ScenarioData = Readonly<Record<string, unknown>>;

/** Parameters that are an amount of exposure, and so carry its unit. */
const AMOUNTS: readonly string[] = ['mean', 'scale', 'median'];

function amount(value: number, per: ExposureUnit): string {
  return `${value} ${unitText(per)}`;
}

/** What a fit says of a hazard, as a scenario writes it; `acceleration` has those of its entries that the log tells. */
export function hazardData({ per, distribution, parameters, acceleration, uncertainty }: FittedHazard): {
  readonly per: ExposureUnit;
  readonly life: ScenarioData;
  readonly acceleration: ScenarioData;
  readonly uncertainty: ScenarioData;
} {
  const { pace, load, referenceLoad } = acceleration;
  return {
    per,
    life: {
      distribution,
      ...Object.fromEntries(
        parameters.map(({ name, value }) => [name, AMOUNTS.includes(name) ? amount(value, per) : value]),
      ),
    },
    acceleration: {
      ...(pace === null ? {} : { pace }),
      ...(load === null ? {} : { load }),
      ...(referenceLoad === null ? {} : { referenceLoad: `${referenceLoad} nN` }),
    },
    uncertainty: {
      ...uncertainty,
      ...(uncertainty.prior === undefined ? {} : { prior: ranged(uncertainty.prior, per) }),
    },
  };
}

/** Ranges with the unit of those that are an amount. */
function ranged(prior: NonNullable<Uncertainty['prior']>, per: ExposureUnit): ScenarioData {
  return Object.fromEntries(
    Object.entries(prior).map(([name, ends]) => [
      name,
      ends.map((end) => (AMOUNTS.includes(name) ? amount(end, per) : end)),
    ]),
  );
}

/** What measured radii say of a kind, as a scenario writes it. */
export function bluntingData(fit: BluntingFit): { readonly wear: ScenarioData; readonly radius: ScenarioData } {
  return {
    wear: {
      coefficient: `${rounded(fit.coefficient.value)} nm3/(nN mm)`,
      geometricSd: rounded(fit.coefficientGeometricSd.value),
      uncertainty: { ...fit.wearUncertainty },
    },
    radius: {
      nominal: `${rounded(fit.radius.value)} nm`,
      geometricSd: rounded(fit.radiusGeometricSd.value),
      uncertainty: { ...fit.radiusUncertainty },
    },
  };
}

/** Where each part of a hazard comes from, for `sources`; `path` leads to the hazard. */
export function hazardSources(
  path: string,
  { log }: FitSummary,
  { tips, events, chosen, hazard, posterior }: CauseFit,
): readonly (readonly [string, string])[] {
  const dated = log.date === null ? '' : ` (${log.date})`;
  const source = `log ${log.file}${dated}, ${counted(tips, 'tip')}, ${counted(events, 'event')}, ${posterior === null ? (chosen?.how ?? 'no distribution') : 'with the range held before it'}`;
  const exponents = [hazard?.acceleration.pace, hazard?.acceleration.load];
  const told = ['pace', 'load'].filter((_, place) => typeof exponents[place] === 'number');
  return [[`${path}.life`, source], ...told.map((name) => [`${path}.acceleration.${name}`, source] as const)];
}

/** Undated: the table of radii says no date, and that of the log is not its own. */
export function bluntingSource({ file, tips, readings, halfAngle }: BluntingFit): string {
  return `radii ${file}, ${counted(tips, 'tip')}, ${counted(readings, 'reading')}, for a cone of half-angle ${halfAngle} deg`;
}
