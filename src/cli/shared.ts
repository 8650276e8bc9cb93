import type { Argv } from 'yargs';
import { refuseUnknown } from './arguments.js';
import { createConsole } from './console.js';

/** Options that every command has. */
export interface SharedOptions {
  readonly quiet: boolean;
  readonly color: boolean;
}

export type Cli = Argv<SharedOptions>;

/** Names that every command knows beside its own, for the check for unknown ones. */
const SHARED_NAMES = ['quiet', 'color', 'help', 'h', 'version', 'V'] as const;

/** How every command begins: what it does not know is refused, and its console follows the options that all have. */
export function beginCommand(
  given: SharedOptions & { readonly _: readonly (string | number)[] },
  options: Readonly<Record<string, unknown>>,
) {
  refuseUnknown(given, [...Object.keys(options), 'file', ...SHARED_NAMES]);
  return createConsole({ color: given.color, quiet: given.quiet });
}
