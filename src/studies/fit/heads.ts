import { EXPOSURE_UNITS, type ExposureUnit } from '../../scenario/exposure.js';
import type { Measure } from './amounts.js';

/** What a column of a log may hold; the names are those of `--column`. */
const SIMPLE_ROLES = [
  'tip',
  'kind',
  'images',
  'distance',
  'hours',
  'approaches',
  'ended',
  'load',
  'pace',
  'environment',
  'date',
  'entry',
  'sound',
] as const;
const UNIT_WORDS = { image: 'images', distance: 'distance', hour: 'hours', approach: 'approaches' } as const;
const LATE_ROLES = ['entry', 'sound'] as const;

type SimpleRole = (typeof SIMPLE_ROLES)[number];
type LateRole = `${(typeof LATE_ROLES)[number]}-${(typeof UNIT_WORDS)[ExposureUnit]}`;
/** `entry-images` and the like say of which exposure the use at entry, or at the last known sound moment, is given. */
export type Role = SimpleRole | LateRole;

const LATE_ROLE_NAMES: readonly LateRole[] = LATE_ROLES.flatMap((role) =>
  EXPOSURE_UNITS.map((unit): LateRole => `${role}-${UNIT_WORDS[unit]}`),
);
export const ROLE_NAMES: readonly Role[] = [...SIMPLE_ROLES, ...LATE_ROLE_NAMES];

/** Natural names of each column, in lower case with single blanks. Common usage, no source. */
const NAMES: Readonly<Record<SimpleRole, readonly string[]>> = {
  tip: ['tip', 'tip id', 'tip no', 'tip nr', 'tip number', 'tip name', 'id', 'probe', 'probe id', 'probe number'],
  kind: ['kind', 'tip kind', 'kind of tip', 'tip type', 'type of tip', 'type', 'probe type', 'probe kind'],
  images: ['images', 'image count', 'number of images', 'no of images', 'images taken', 'scans', 'frames', 'n images'],
  distance: [
    'distance',
    'path',
    'sliding path',
    'sliding distance',
    'scan path',
    'scan distance',
    'tip path',
    'scanned distance',
  ],
  hours: [
    'hours',
    'scan hours',
    'scanning hours',
    'hours of scanning',
    'scan time',
    'scanning time',
    'time',
    'use time',
    'minutes',
    'scan minutes',
  ],
  approaches: ['approaches', 'number of approaches', 'no of approaches', 'engages', 'engagements', 'n approaches'],
  ended: [
    'ended',
    'ended by',
    'end',
    'end cause',
    'what ended it',
    'cause',
    'cause of end',
    'failure',
    'failure mode',
    'fate',
    'outcome',
    'reason',
  ],
  load: ['load', 'force', 'normal load', 'normal force', 'setpoint force', 'load setpoint'],
  pace: ['pace', 'scan pace', 'pace of scanning', 'relative pace', 'relative speed', 'speed factor'],
  environment: ['environment', 'medium', 'surroundings', 'ambience'],
  date: ['date', 'day', 'date off', 'taken off', 'taken off on', 'end date', 'removed', 'removed on'],
  entry: [
    'entry',
    'entry use',
    'use at entry',
    'used before',
    'earlier use',
    'prior use',
    'previous use',
    'use before',
    'before',
    'earlier',
    'already used',
  ],
  sound: [
    'sound',
    'last sound',
    'last known sound',
    'last sound use',
    'last known sound use',
    'sound until',
    'last good',
    'last known good',
    'last ok',
  ],
};

/** Words in a head that say which exposure it counts. */
const COUNTING: Readonly<Record<ExposureUnit, RegExp>> = {
  image: /\b(?:images?|scans?|frames?)\b/u,
  distance: /\b(?:distance|path)\b/u,
  hour: /\b(?:hours?|time|minutes?)\b/u,
  approach: /\b(?:approach(?:es)?|engages?)\b/u,
};

/** The head of a column: `Distance [mm]`. */
export interface Head {
  /** As written. */
  readonly text: string;
  /** Without the unit, as written. */
  readonly bare: string;
  /** Without the unit, in lower case with single blanks, which is what is compared. */
  readonly name: string;
  /** Null where none is given. */
  readonly unit: string | null;
}

export function headOf(text: string): Head {
  const match = /^(.*?)\s*(?:\[([^\]]*)\]|\(([^)]*)\))\s*$/u.exec(text);
  const bare = match?.at(1) ?? text;
  const unit = match?.at(2) ?? match?.at(3);
  return { text, bare, name: plain(bare), unit: unit?.trim() ?? null };
}

/** `lastSound`, `Last_sound` and `last-sound` are one name. */
function plain(text: string): string {
  return text
    .slice(0, 200)
    .replace(/(?<=\p{Ll})(?=\p{Lu})/gu, ' ')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** What a column holds by its head; null where that is not known. */
export function roleOf({ name }: Head): Role | null {
  const isName = (role: SimpleRole, text: string) => NAMES[role].includes(text);
  const simple = SIMPLE_ROLES.find((role) => isName(role, name));
  if (simple !== undefined) return simple;
  for (const role of LATE_ROLES) {
    for (const unit of EXPOSURE_UNITS) {
      const rest = name
        .replace(COUNTING[unit], ' ')
        .replace(/\s+/gu, ' ')
        .trim()
        .replace(/^(?:at|of)\s|\s(?:at|of|in)$/u, '')
        .replace(/^at /u, '');
      if (rest !== name && isName(role, rest)) return `${role}-${UNIT_WORDS[unit]}`;
    }
  }
  return null;
}

/** What the numbers of a role may measure; null where it holds no numbers. */
export function unitsOfRole(role: Role): readonly Measure[] | null {
  const late = LATE_ROLE_NAMES.find((each) => each === role);
  if (late !== undefined) return EXPOSURE_UNITS.filter((unit) => late.endsWith(`-${UNIT_WORDS[unit]}`));
  switch (role) {
    case 'entry':
    case 'sound':
      return EXPOSURE_UNITS;
    case 'images':
      return ['image'];
    case 'distance':
      return ['distance'];
    case 'hours':
      return ['hour'];
    case 'approaches':
      return ['approach'];
    case 'load':
      return ['load'];
    case 'pace':
      return ['pace'];
    default:
      return null;
  }
}
