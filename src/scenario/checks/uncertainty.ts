import type { Faults } from '../faults.js';
import { writtenPath } from '../paths.js';
import { entryOf, type RawMap } from '../schema-walk.js';
import { overlay } from '../strategies.js';
import { carriersIn } from '../uncertainty.js';
import { readCarrier } from '../uncertainty-reading.js';
import { startsWith } from '../value-path.js';

/** An uncertainty names values that stand beside it, and is a covariance or a range that they could have. */
export function checkUncertainties(filled: RawMap, faults: Faults): void {
  for (const carrier of carriersIn(filled)) {
    const reading = readCarrier(carrier, filled);
    const problems = reading.ok ? [] : reading.problems;
    for (const { path, message } of problems) {
      const at = [...carrier.path, carrier.key, ...path];
      faults.add(at, writtenPath(filled, at), 'value', message);
    }
  }
  const strategies = entryOf(filled, 'strategies');
  const count = Array.isArray(strategies) ? strategies.length : 0;
  for (let index = 0; index < count; index += 1) checkOwn(filled, index, faults);
}

/** What is not known of a tip is so for all strategies; one that has tips of its own says what it takes them to be. */
function checkOwn(filled: RawMap, index: number, faults: Faults): void {
  const { raw, overrides } = overlay(filled, index);
  const places = [...carriersIn(filled), ...carriersIn(raw)].map(({ path, key }) => [...path, key]);
  for (const { target, writtenAt } of overrides) {
    const own = places.find((place) => startsWith(target, place) || startsWith(place, target));
    const isWritten = own !== undefined && (startsWith(target, own) || isIn(raw, own));
    if (!isWritten) continue;
    const message = 'an uncertainty is shared by all strategies; a strategy cannot set it';
    faults.add(writtenAt, writtenPath(filled, writtenAt), 'key', message);
  }
}

function isIn(document: RawMap, path: readonly (string | number)[]): boolean {
  return path.reduce<unknown>((data, key) => entryOf(data, key), document) !== undefined;
}
