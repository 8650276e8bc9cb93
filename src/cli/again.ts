import { AsyncLocalStorage } from 'node:async_hooks';
import type { Maker } from '../analysis/about.js';

/** A command that another command runs once more, unseen. */
export interface Again {
  /** Goes on record in place of this program and this machine, so that all else can be compared to the byte. */
  readonly maker: Maker;
  /** What would have been said on stderr. */
  readonly complaints: string[];
}

/** Set while a command is run again. */
export const again = new AsyncLocalStorage<Again>();
