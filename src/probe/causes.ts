import { breakage } from './causes/breakage.js';
import { type Declared, isSetting, type Set, type Settings } from './causes/cause.js';
import { chipping } from './causes/chipping.js';
import { coating } from './causes/coating.js';
import { doubleTip } from './causes/double-tip.js';
import { fouling } from './causes/fouling.js';
import { wornOut } from './causes/worn-out.js';

export { type Effect, isSetting, type Setting, type Settings } from './causes/cause.js';

/** What can end or spoil a tip: one line each, a new one at the end. Schema, types, words of logs and states are made from what each declares. */
const CAUSES = { breakage, chipping, fouling, coating, 'worn-out': wornOut, 'double-tip': doubleTip };

type Causes = typeof CAUSES;
export type Cause = keyof Causes;

/** How a tip is called that one of them has spoiled. */
export type LeftState = Causes[Cause]['leaves'];

/** A cause with its settings, as a scenario has them. */
export type CauseSettings = {
  [Name in Cause]: { readonly cause: Name } & Set<Causes[Name]['settings']>;
}[Cause];

function isCause(name: string): name is Cause {
  return Object.hasOwn(CAUSES, name);
}

/** In the order in which they are listed. */
export const CAUSE_NAMES: readonly Cause[] = Object.keys(CAUSES).filter(isCause);

/** What is declared of a cause, whichever it is. */
export function declaredOf(cause: Cause): Declared<LeftState> {
  return CAUSES[cause];
}

/** Whether a record holds the name of a cause and a value for each of its settings. */
export function isCauseWithSettings(record: { readonly cause: string }): record is CauseSettings {
  return isCause(record.cause) && hasAll(declaredOf(record.cause).settings, record);
}

function hasAll(settings: Settings, record: object): boolean {
  const found = new Map<string, unknown>(Object.entries(record));
  return Object.entries(settings).every(([name, one]) => {
    const value = found.get(name);
    if (!isSetting(one)) return typeof value === 'object' && value !== null && hasAll(one, value);
    return typeof value === 'number' || (one.is === 'images' && value === 'never');
  });
}
