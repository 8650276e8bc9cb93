import { expect } from 'vitest';
import type { Outcome } from './command.js';

/** Holds a command to have refused what it was given, in one clear message. */
export function expectRefusal(outcome: Outcome, message: RegExp): void {
  expect(outcome.stderr).toMatch(message);
  expect(outcome.stderr).not.toMatch(/^\s+at /m);
  expect(outcome.stdout).toBe('');
  expect(outcome.code).toBe(2);
}
