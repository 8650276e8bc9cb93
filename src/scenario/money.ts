import * as z from 'zod';
import { LARGEST, splitQuantity, tidy, type Reading } from './quantity.js';
import { notText, show } from './show.js';

export interface Money {
  readonly amount: number;
  /** Three capital letters (ISO 4217). */
  readonly currency: string;
}

export const MONEY_EXAMPLE = '30 EUR';
const WANTED = `an amount of money such as \`${MONEY_EXAMPLE}\` is wanted`;

/** Reads `30 EUR`. */
export function readMoney(text: string): Reading<Money> {
  const refuse = (what: string): Reading<Money> => ({
    ok: false,
    message: `read ${show(text)}${what}; ${WANTED}`,
  });
  const parts = text.length > 100 ? null : splitQuantity(text);
  if (parts === null) return refuse(', which does not begin with a number');
  if (parts.unit === '') return refuse(', which has no currency');
  if (!/^[A-Z]{3}$/u.test(parts.unit)) return refuse(', whose currency is not three capital letters');
  if (parts.number < 0 || parts.number > LARGEST) return refuse(`, which lies outside 0 to ${LARGEST}`);
  return { ok: true, value: { amount: tidy(parts.number), currency: parts.unit } };
}

/** A schema for an amount of money: `30 EUR` in, a plain number of the scenario's one currency out. */
export function moneyText() {
  return z
    .string({ error: (issue) => notText(issue.input, 'which has no currency', WANTED) })
    .transform((text, context): number => {
      const reading = readMoney(text);
      if (reading.ok) return reading.value.amount;
      context.addIssue({ code: 'custom', message: reading.message });
      return z.NEVER;
    });
}
