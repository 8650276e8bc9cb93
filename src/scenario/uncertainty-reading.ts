import { normalQuantile } from '../chance/normal.js';
import { semidefiniteFactor } from '../statistics/cholesky.js';
import { capital } from '../wording/phrases.js';
import { ownersOf, ownerText } from './describe.js';
import { writtenPath } from './paths.js';
import { type Path, pathKey } from './places.js';
import { readAs } from './problems.js';
import { numberIn, type Written } from './ranges.js';
import { sharedSchema } from './schema/scenario.js';
import { ontoScale, type Scale, type Uncertain, writtenUncertainty } from './schema/uncertainty.js';
import { type FoundLeaf, leavesOf, type RawMap, schemaAt } from './schema-walk.js';
import { show } from './show.js';
import { asWritten } from './siblings.js';

/** One value of which only so much is known, and where it is normal about which centre. */
export interface UnknownParameter {
  /** As the register and `withValue` take it. */
  readonly path: string;
  readonly found: FoundLeaf;
  readonly written: Written;
  readonly scale: Scale;
  readonly centre: number;
  readonly standardDeviation: number;
  /** By which its random number is known: the path of an input, and the place of a parameter in it. */
  readonly draw: { readonly path: string; readonly index: number };
}

/** Values of one map that are uncertain together: jointly normal on their scales. */
export interface UnknownInput {
  /** Path of the map, such as `tips.sharp.hazards.breakage`. */
  readonly path: string;
  /** Such as `sharp, breakage: life`. */
  readonly description: string;
  /** From a fit with its covariance, or from intervals given by hand. */
  readonly from: 'fit' | 'range';
  readonly parameters: readonly UnknownParameter[];
  /** Lower triangle L of the covariance L·Lᵀ, row by row. */
  readonly factor: readonly (readonly number[])[];
}

/** Standard deviations from the middle of a normal to either end of its central 95 %. */
export const CENTRAL_DEVIATES = normalQuantile(0.975);

/** A map of the scenario that says how far its values are known. */
export interface Carrier extends Uncertain {
  readonly path: Path;
  /** Key under which it says so. */
  readonly key: string | number;
  readonly written: unknown;
}

/** What is wrong with an uncertainty, and where below it. */
interface UncertaintyProblem {
  readonly path: Path;
  readonly message: string;
}

type CarrierReading =
  | { readonly ok: true; readonly input: UnknownInput }
  /** No problem is named where something else is wrong that is told elsewhere. */
  | { readonly ok: false; readonly problems: readonly UncertaintyProblem[] };

/** A value that the uncertainty names, found in the scenario. */
interface Named {
  readonly name: string;
  readonly found: FoundLeaf;
  readonly written: Written;
  readonly scale: Scale;
  readonly value: number;
}

/** A map that carries an uncertainty, in the scenario that holds it. */
interface Held {
  readonly carrier: Carrier;
  readonly document: RawMap;
  /** All values of the scenario, by the keys of their paths. */
  readonly leaves: ReadonlyMap<string, FoundLeaf>;
}

/** The uncertainty that a map carries, held to what stands in the map. */
export function readCarrier(carrier: Carrier, document: RawMap): CarrierReading {
  const form = writtenUncertainty.safeParse(carrier.written);
  if (!form.success) return refused();
  const names = 'of' in form.data ? form.data.of : Object.keys(form.data.range);
  if (!names.every((name) => Object.hasOwn(carrier.parameters, name))) return refused();
  const leaves = new Map(leavesOf(sharedSchema, document).map((leaf) => [pathKey(leaf.path), leaf]));
  const held = { carrier, document, leaves };
  return 'of' in form.data ? fromFit(held, form.data.of, form.data.covariance) : fromRanges(held, form.data.range);
}

function refused(...problems: readonly UncertaintyProblem[]): CarrierReading {
  return { ok: false, problems };
}

function fromFit(held: Held, of: readonly string[], covariance: readonly (readonly number[])[]): CarrierReading {
  const named = of.map((name, i) => nameIn(held, name, ['of', i]));
  const problems = named.filter((one) => 'message' in one);
  of.forEach((name, i) => {
    if (of.indexOf(name) < i) problems.push({ path: ['of', i], message: `read ${show(name)} a second time` });
  });
  if (problems.length > 0) return refused(...problems);
  const wrong = wrongShape(covariance, of.length);
  if (wrong !== null) return refused(wrong);
  const factor = semidefiniteFactor(covariance);
  if (factor === null)
    return refused({
      path: ['covariance'],
      message: 'is no covariance: some combination of the values would have a variance below zero',
    });
  return inputOf(held, 'fit', factor, named, ({ scale, value }, i) => ({
    centre: ontoScale(scale, value),
    standardDeviation: Math.sqrt(covariance[i][i]),
  }));
}

function wrongShape(covariance: readonly (readonly number[])[], size: number): UncertaintyProblem | null {
  const wanted = `${size === 1 ? '1 row of 1 number' : `${size} rows of ${size} numbers`} ${size === 1 ? 'is' : 'are'} wanted, as \`of\` names ${size}`;
  if (covariance.length !== size) return { path: ['covariance'], message: `has ${covariance.length} rows; ${wanted}` };
  for (const [i, row] of covariance.entries()) {
    if (row.length !== size) return { path: ['covariance', i], message: `has ${row.length} numbers; ${wanted}` };
    if (row[i] < 0) return { path: ['covariance', i, i], message: `read ${show(row[i])}; a variance is zero or more` };
  }
  for (const [i, row] of covariance.entries()) {
    for (let j = 0; j < i; j += 1) {
      if (Math.abs(row[j] - covariance[j][i]) > 1e-9 * Math.sqrt(row[i] * covariance[j][j]))
        return {
          path: ['covariance', i, j],
          message: `read ${show(row[j])}, though the same covariance stands as ${show(covariance[j][i])} across the diagonal; a symmetric one is wanted`,
        };
    }
  }
  return null;
}

function fromRanges(held: Held, range: Readonly<Record<string, readonly [Written, Written]>>): CarrierReading {
  const entries = Object.entries(range);
  if (entries.length === 0)
    return refused({
      path: ['range'],
      message: 'nothing stands here; for each value that is uncertain two ends are wanted',
    });
  const named = entries.map(([name]) => nameIn(held, name, ['range', name]));
  const read = named.map((one, i) => ('message' in one ? one : placesOf(one, entries[i][1], held.document)));
  const problems = read.filter((one) => 'message' in one);
  if (problems.length > 0) return refused(...problems);
  const spans = read.filter((one) => 'centre' in one);
  const factor = spans.map(({ standardDeviation }, i) => spans.map((_, j) => (i === j ? standardDeviation : 0)));
  return inputOf(held, 'range', factor, named, (_, i) => spans[i]);
}

type Normal = Pick<UnknownParameter, 'centre' | 'standardDeviation'>;

/** The normal on the value's scale of which the two ends hold the central 95 %: its centre is their middle. */
function placesOf(named: Named, ends: readonly [Written, Written], document: RawMap): Normal | UncertaintyProblem {
  const { found, scale, value } = named;
  const path = ['range', named.name];
  for (const [i, end] of ends.entries()) {
    const message = refusalOf(found, end, document);
    if (message !== null) return { path: [...path, i], message };
  }
  const [low, high] = ends.map((end) => numberIn(found.leaf, end) ?? Number.NaN);
  const said = `read ${ends.map(show).join(' to ')}`;
  if (!(low < high)) return { path, message: `${said}; a lower end below the upper one is wanted` };
  if (value < low || value > high)
    return { path, message: `${said}; a range that holds the value itself, ${show(named.written)}, is wanted` };
  const [from, to] = [ontoScale(scale, low), ontoScale(scale, high)];
  const isReached = Number.isFinite(from) && Number.isFinite(to);
  if (!isReached) return { path, message: `${said}; ends that are not the least or the greatest possible are wanted` };
  return { centre: (from + to) / 2, standardDeviation: (to - from) / (2 * CENTRAL_DEVIATES) };
}

/** What the schema has against an end in the value's place; null where it takes it. */
function refusalOf({ path }: FoundLeaf, end: Written, document: RawMap): string | null {
  const place = schemaAt(sharedSchema, document, path);
  const read = place === null ? null : readAs(place.schema, end, path, document);
  return read === null || read.ok ? null : (read.problems.at(0)?.message ?? null);
}

function nameIn({ carrier, leaves }: Held, name: string, path: Path): Named | UncertaintyProblem {
  const at = (key: string) => leaves.get(pathKey([...carrier.path, ...carrier.parameters[key].at]));
  const known = Object.keys(carrier.parameters).filter((key) => at(key) !== undefined);
  const found = known.includes(name) ? at(name) : undefined;
  const written = found === undefined ? null : asWritten(found.written);
  const value = found === undefined ? null : numberIn(found.leaf, written);
  if (found === undefined || written === null || value === null) {
    const wanted = known.map(show).join(', ');
    return {
      path,
      message: `read ${show(name)}, which this ${carrier.what} does not have; one of ${wanted} is wanted`,
    };
  }
  const { scale } = carrier.parameters[name];
  return Number.isFinite(ontoScale(scale, value))
    ? { name, found, written, scale, value }
    : { path, message: `${show(name)} is ${show(written)} here, about which nothing can be uncertain` };
}

function inputOf(
  { carrier, document }: Held,
  from: UnknownInput['from'],
  factor: UnknownInput['factor'],
  named: readonly (Named | UncertaintyProblem)[],
  normal: (named: Named, index: number) => Normal,
): CarrierReading {
  const path = writtenPath(document, carrier.path);
  const parameters = named
    .filter((one) => 'found' in one)
    .map((one, i) => ({
      path: writtenPath(document, one.found.path),
      found: one.found,
      written: one.written,
      scale: one.scale,
      ...normal(one, i),
      draw: { path, index: i },
    }));
  // What is in no tip kind is in a workflow.
  const owners = ownersOf(carrier.path, document);
  const description = `${capital(carrier.what)}, ${owners.length === 0 ? carrier.path[1] : ownerText(owners)}`;
  return { ok: true, input: { path, description, from, parameters, factor } };
}
