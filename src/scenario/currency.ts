import type { Path } from './places.js';
import { leavesOf } from './leaf-walk.js';
import { readMoney } from './money.js';
import { sharedSchema } from './schema/scenario.js';
import type { RawMap } from './schema-walk.js';

/** Where money is written, and in which currency; zero counts for none. */
export function currenciesIn(filled: RawMap): readonly { readonly path: Path; readonly currency: string }[] {
  return leavesOf(sharedSchema, filled).flatMap(({ leaf, path, written }) => {
    const money = leaf.form === 'money' && typeof written === 'string' ? readMoney(written) : null;
    return money?.ok === true && money.value.amount > 0 ? [{ path, currency: money.value.currency }] : [];
  });
}

/** The scenario's one currency; EUR where no money is written. */
export function currencyOf(filled: RawMap): string {
  return currenciesIn(filled)[0]?.currency ?? 'EUR';
}
