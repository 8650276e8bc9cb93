/** What an event of a hazard does. */
export interface Effect {
  /** The tip gives no image any more. */
  readonly breaks: boolean;
  /** The tip gives no electrical image any more. */
  readonly uncoats: boolean;
  /** The apex radius jumps, and the hazard runs on. */
  readonly chips: boolean;
  /** The hazard's quality factor holds until it clears, by itself or by cleaning. */
  readonly clears: boolean;
}

/** A setting that a hazard has beside its life, as plain data from which schema and types are made. */
export type Setting =
  /** From 0 to 1. */
  | (Common & { readonly is: 'share' })
  | (Common & { readonly is: 'factor'; readonly least: number; readonly most: number })
  /** A number of images, or `never`, which is usual. */
  | { readonly is: 'images'; readonly description: string };

interface Common {
  /** One sentence for editors and the table of assumptions. */
  readonly description: string;
  readonly usual: number;
  /** Between which a value that nobody has measured may lie. */
  readonly range: readonly [number, number];
}

/** By the names of scenario files; settings that belong together are one level deeper. */
export interface Settings {
  readonly [name: string]: Setting | Settings;
}

/** What a scenario has for such settings. */
export type Set<S> = S extends { readonly is: 'images' }
  ? number | 'never'
  : S extends Setting
    ? number
    : { readonly [Name in keyof S]: Set<S[Name]> };

/** All that is known of a cause of a spoiled tip: one file each, and one line in `../causes.ts`. */
export interface Declared<State extends string = string, S extends Settings = Settings> {
  /** What it is called in a sentence. */
  readonly title: string;
  readonly effect: Effect;
  /** How timelines call a tip that it has spoiled. */
  readonly leaves: State;
  /** Whether it shows while a scan runs, so that whoever watches looks for it unless told otherwise. */
  readonly showsInScan: boolean;
  /** Whether a new apex, by reconditioning, takes it away. What clears does so in any case. */
  readonly goesWithApex?: boolean;
  readonly settings: S;
  /** Words for it in logs of tips, beside its own name. Common usage, no source. */
  readonly inLogs: readonly string[];
}

export const NOTHING: Effect = { breaks: false, uncoats: false, chips: false, clears: false };

export function cause<const State extends string, const S extends Settings>(
  declared: Declared<State, S>,
): Declared<State, S> {
  return declared;
}

export function isSetting(one: Setting | Settings): one is Setting {
  return typeof one.is === 'string';
}
