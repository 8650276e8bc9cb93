import type { LoadedScenario } from '../assemble.js';
import type { Faults } from '../faults.js';
import { writtenPath } from '../paths.js';
import type { Path } from '../places.js';
import { readMoney } from '../money.js';
import { numberIn, type Written } from '../ranges.js';
import { sharedSchema } from '../schema/scenario.js';
import { entryOf, isMap, leafAt, leavesOf, type RawMap } from '../schema-walk.js';
import { show } from '../show.js';
import { withValue } from '../patch.js';
import { type Laid, resolveValue, type ValuePlace } from '../value-path.js';
import { repeated } from './names.js';

/** Strategies of one name could not be told apart. */
export function checkStrategyNames(filled: RawMap, faults: Faults): void {
  const strategies = entryOf(filled, 'strategies');
  const names = (Array.isArray(strategies) ? strategies : []).map((strategy: unknown, index) => {
    const name = entryOf(strategy, 'name');
    return typeof name === 'string' ? name : index;
  });
  for (const index of repeated(names)) {
    const name = show(names.at(index));
    faults.add(
      ['strategies', index, 'name'],
      writtenPath(filled, ['strategies', index, 'name']),
      'value',
      `read the name ${name}, which an earlier strategy has; another is wanted`,
    );
  }
}

/** Where money is written, and in which currency; zero counts for none. */
function currenciesIn(filled: RawMap): readonly { readonly path: Path; readonly currency: string }[] {
  return leavesOf(sharedSchema, filled).flatMap(({ leaf, path, written }) => {
    const money = leaf.form === 'money' && typeof written === 'string' ? readMoney(written) : null;
    return money?.ok === true && money.value.amount > 0 ? [{ path, currency: money.value.currency }] : [];
  });
}

/** The scenario's one currency; EUR where no money is written. */
export function currencyOf(filled: RawMap): string {
  return currenciesIn(filled)[0]?.currency ?? 'EUR';
}

/** Costs in several currencies cannot be added. */
export function checkCurrencies(filled: RawMap, faults: Faults): void {
  const found = currenciesIn(filled);
  const first = found.at(0);
  for (const { path, currency } of found) {
    if (first === undefined || currency === first.currency) continue;
    const message = `read an amount in ${currency}, though ${writtenPath(filled, first.path)} is in ${first.currency}; one currency for all is wanted`;
    faults.add(path, writtenPath(filled, path), 'value', message);
  }
}

/** A kind that no strategy uses is a slip, but does no harm. */
export function checkUnusedKinds(
  { base, strategies }: Pick<LoadedScenario, 'base' | 'strategies'>,
  faults: Faults,
): void {
  const used = new Set(strategies.flatMap(({ settings }) => settings.plan.passes.map(({ tip }) => tip)));
  for (const kind of Object.keys(base.tips)) {
    if (!used.has(kind))
      faults.add(['tips', kind], `tips.${kind}`, 'key', `no pass uses the tip kind ${show(kind)}`, 'warning');
  }
}

/** Sources and ranges name paths that exist. */
export function checkPaths(written: Laid, faults: Faults): void {
  for (const part of ['sources', 'ranges'] as const) {
    const said = written.shared[part];
    for (const text of isMap(said) ? Object.keys(said) : []) {
      const resolved = resolveValue(written, text);
      if (!resolved.ok) faults.add([part, text], `${part}.${text}`, 'key', resolved.message);
    }
  }
}

/** Ranges have two ends that the value itself could be, one on either side of it. */
export function checkRanges(loaded: LoadedScenario, written: Laid, faults: Faults): void {
  for (const [text, ends] of Object.entries(loaded.base.ranges)) {
    const resolved = resolveValue(written, text);
    if (resolved.ok) checkRange(loaded, text, ends, resolved.place, faults);
  }
}

function checkRange(
  loaded: LoadedScenario,
  text: string,
  ends: readonly Written[],
  { path, document }: ValuePlace,
  faults: Faults,
): void {
  const found = leafAt(sharedSchema, document, path);
  const at = ['ranges', text];
  const value = found === null ? null : numberIn(found.leaf, found.written);
  if (found === null || !('min' in found.leaf)) {
    faults.add(at, `ranges.${text}`, 'key', `${show(text)} is no single number, so it can have no range`);
    return;
  }
  const wrong = ends.flatMap((end, index) => {
    const changed = withValue(loaded, text, end);
    return changed.ok ? [] : [{ index, message: changed.message }];
  });
  for (const { index, message } of wrong) faults.add([...at, index], `ranges.${text}.${index}`, 'value', message);
  if (wrong.length > 0) return;
  const [low, high] = ends.map((end) => numberIn(found.leaf, end));
  if (typeof low !== 'number' || typeof high !== 'number' || value === null) return;
  if (low >= high)
    faults.add(
      at,
      `ranges.${text}`,
      'value',
      `read ${ends.map(show).join(' to ')}; a lower end below the upper one is wanted`,
    );
  else if (value < low || value > high)
    faults.add(
      at,
      `ranges.${text}`,
      'value',
      `read ${ends.map(show).join(' to ')}; a range that holds the value itself, ${show(found.written)}, is wanted`,
    );
}
