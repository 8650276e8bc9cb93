import type { Argv } from 'yargs';

/** Options that every command has. */
export interface SharedOptions {
  readonly quiet: boolean;
  readonly color: boolean;
}

export type Cli = Argv<SharedOptions>;

/** Names that every command knows beside its own, for the check for unknown ones. */
export const SHARED_NAMES = ['quiet', 'color', 'help', 'h', 'version', 'V'] as const;
