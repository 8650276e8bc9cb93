import { CAUSE_NAMES, declaredOf } from '../probe/causes.js';
import { capital } from '../wording/phrases.js';
import type { ExposureUnit } from './exposure.js';
import type { Path } from './places.js';
import { sharedSchema } from './schema/scenario.js';
import { dataAt, type FoundLeaf, leafAt, type RawMap } from './schema-walk.js';
import { resolveValue, type Settled, settingsIn } from './value-path.js';

/** What a value is called, of its description: without what explains it behind a semicolon. */
export function nameIn(description: string): string {
  return description.replace(/;.*$/su, '');
}

/** A description with more behind the name in it. */
export function withEnding(description: string, ending: string): string {
  return description.replace(/^[^;]*/u, (name) => name + ending);
}

/** What the value at a path is, in words, where the scenario has one there; else the path itself. */
export function describePath(loaded: Settled, text: string): string {
  const found = valueAt(loaded, text);
  return found === null ? text : describedAt(found, found.document);
}

/** The single value at a path, as settings have it, and the scenario in which it stands; null where there is none. */
export function valueAt(loaded: Settled, text: string): (FoundLeaf & { readonly document: RawMap }) | null {
  const resolved = resolveValue(settingsIn(loaded), text);
  if (!resolved.ok) return null;
  const { path, document } = resolved.place;
  const found = leafAt(sharedSchema, document, path);
  return found === null ? null : { ...found, document };
}

/** One of each exposure unit, and several. */
const UNIT_WORDS: Readonly<Record<ExposureUnit, readonly [string, string]>> = {
  image: ['image', 'images'],
  distance: ['millimetre', 'millimetres'],
  hour: ['hour', 'hours'],
  approach: ['approach', 'approaches'],
};

/**
 * What a value is: its name with the pass, the tip kind or the hazard to which it belongs, and what explains it behind semicolons,
 * such as `Probability per image, contamination of sharp` or `Load on the tip, islands; in intermittent contact an equivalent`.
 */
export function describedAt({ leaf, group, path }: FoundLeaf, document: RawMap): string {
  const own = inUnits(leaf.description, leaf.form === 'exposure', unitAt(path, document)).split('; ');
  const [first, ...more] = own;
  const [whole, ...about] = group?.description?.split('; ') ?? [];
  const name = group?.description === undefined ? capital(first) : `${whole}: ${uncapitalised(first)}`;
  const owner = ownerText(ownersOf(path, document));
  return [owner === '' ? name : `${name}, ${owner}`, ...about, ...more].join('; ');
}

/** `islands`, `sharp`, or of a hazard `contamination of sharp`. */
export function ownerText(owners: readonly string[]): string {
  const [first, cause, phase] = [0, 1, 2].map((place) => owners.at(place) ?? '');
  if (cause === '') return first;
  const hazard = CAUSE_NAMES.find((each) => each === cause);
  return `${hazard === undefined ? cause : declaredOf(hazard).title} of ${first}${phase === '' ? '' : `, ${phase} phase`}`;
}

/** The tip kind, the cause of the hazard, or the pass to which what stands at a path belongs. */
export function ownersOf(path: Path, document: RawMap): readonly string[] {
  const [first, second, third, fourth, fifth] = path;
  if (first === 'plan' && second === 'passes') return texts(dataAt(document, [...path.slice(0, 3), 'name']));
  if (first === 'tips' && third === 'hazards')
    return texts(
      second,
      dataAt(document, [...path.slice(0, 4), 'cause']),
      // A term of a life that has several.
      path[4] === 'life' && path.length > 6 ? path[5] : null,
    );
  if (first === 'tips') return texts(second);
  if (first === 'stock' && second === 'tips') return texts(third);
  return third === 'chip' && (fourth === 'sites' || fourth === 'dead') ? texts(fifth) : [];
}

function texts(...values: readonly unknown[]): readonly string[] {
  return values.filter((value) => typeof value === 'string');
}

/** The unit in which the hazard that holds a value counts its life; null where it stands in none. */
function unitAt(path: Path, document: RawMap): readonly [string, string] | null {
  const per = path[2] === 'hazards' ? dataAt(document, [...path.slice(0, 4), 'per']) : undefined;
  return Object.entries(UNIT_WORDS).find(([unit]) => unit === per)?.[1] ?? null;
}

function inUnits(description: string, isExposure: boolean, unit: readonly [string, string] | null): string {
  if (unit === null) return description;
  const [one, several] = unit;
  if (!isExposure) return description.replace(/per unit of exposure.*$/u, `per ${one}`);
  return description.startsWith('Exposure') ? description.replace('Exposure', several) : `${description} in ${several}`;
}

function uncapitalised(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}
