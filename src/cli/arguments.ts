import { nearest } from '../scenario/nearest.js';
import { Failure } from './failure.js';

/** A whole number as a person types it; anything else is a usage error that says what is wanted. */
export function wholeNumber(
  option: string,
  text: string,
  bounds: { readonly min: number; readonly max: number },
): number {
  const value = /^\d{1,15}$/.test(text.trim()) ? Number(text) : NaN;
  if (!(value >= bounds.min && value <= bounds.max)) {
    throw new Failure(`--${option} wants a whole number from ${bounds.min} to ${bounds.max}, not "${text}"`);
  }
  return value;
}

function dashed(name: string): string {
  return name.length === 1 ? `-${name}` : `--${name}`;
}

/**
 * Throws for every option or word that the command does not know, all at once, each with the nearest right one.
 * @param given what was parsed; `_` holds the words beyond the command's own
 * @param known options and positionals of the command
 */
export function refuseUnknown(given: { readonly _: readonly (string | number)[] }, known: readonly string[]): void {
  const options = Object.keys(given).filter((key) => key !== '_' && key !== '$0' && !known.includes(key));
  const messages = options.map((key) => {
    const near = nearest(key, known);
    return `unknown option ${dashed(key)}${near === null ? '' : `; did you mean ${dashed(near)}?`}`;
  });
  const [, ...words] = given._;
  messages.push(...words.map((word) => `unexpected argument "${word}"`));
  if (messages.length > 0) throw new Failure(messages);
}
