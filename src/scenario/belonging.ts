import type { ExposureUnit } from './exposure.js';
import type { FoundLeaf } from './leaf-walk.js';
import type { Path } from './places.js';
import { entryOf, type RawMap } from './schema-walk.js';

/** One of each exposure unit, and several. */
const UNIT_WORDS: Readonly<Record<ExposureUnit, readonly [string, string]>> = {
  image: ['image', 'images'],
  distance: ['millimetre', 'millimetres'],
  hour: ['hour', 'hours'],
  approach: ['approach', 'approaches'],
};

/** What a value is, with the tip kind, hazard or pass to which it belongs in front: `sharp, fouling: probability per image`. */
export function describedAt({ leaf, group, path }: FoundLeaf, document: RawMap): string {
  const own = inUnits(leaf.description, leaf.form === 'exposure', unitAt(path, document));
  const whole = group?.description === undefined ? own : `${group.description}: ${own.toLowerCase()}`;
  const owners = ownersOf(path, document);
  return owners.length === 0 ? whole : `${owners.join(', ')}: ${uncapitalised(whole)}`;
}

/** The tip kind, the cause of the hazard, or the pass to which what stands at a path belongs. */
export function ownersOf(path: Path, document: RawMap): readonly string[] {
  const [first, second, third, fourth, fifth] = path;
  if (first === 'plan' && second === 'passes') return texts(dataAt(document, [...path.slice(0, 3), 'name']));
  if (first === 'tips' && third === 'hazards')
    return texts(
      second,
      dataAt(document, [...path.slice(0, 4), 'cause']),
      path[5] === 'early' || path[5] === 'late' ? path[5] : null,
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

function dataAt(document: RawMap, path: Path): unknown {
  return path.reduce<unknown>((data, key) => entryOf(data, key), document);
}

function uncapitalised(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}
