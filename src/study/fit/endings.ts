import { nearest } from '../../scenario/nearest.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { show } from '../../scenario/show.js';

/** What ended a tip's time in the log. */
export interface Ending {
  /** Null: taken off sound, or on suspicion alone. */
  readonly cause: Cause | null;
  /** Taken off on suspicion; `cause` is then null. */
  readonly suspected: boolean;
  /** What was suspected, where the log says it. */
  readonly suspect: Cause | null;
}

export type ReadEnding =
  | {
      readonly ok: true;
      readonly ending: Ending;
      /** The scenario's word, where the log has another. */ readonly meant: string | null;
    }
  | { readonly ok: false; readonly message: string };

/** Words that people write for each cause, beside its own. Common usage, no source. */
const CAUSE_WORDS: Readonly<Record<Cause, readonly string[]>> = {
  breakage: [
    'broken',
    'broke',
    'break',
    'tip broken',
    'broken tip',
    'snapped',
    'fracture',
    'fractured',
    'crash',
    'crashed',
    'tip crash',
  ],
  chipping: ['chipped', 'chip', 'apex chipped', 'chipped apex'],
  fouling: [
    'fouled',
    'foul',
    'contamination',
    'contaminated',
    'dirty',
    'dirt',
    'debris',
    'particle',
    'picked up particle',
  ],
  coating: [
    'coating gone',
    'coating lost',
    'coating worn',
    'coating loss',
    'coating worn off',
    'lost coating',
    'delaminated',
    'delamination',
  ],
  'worn-out': ['worn out', 'worn', 'wear', 'blunt', 'blunted', 'dull', 'too blunt'],
};
const SOUND_WORDS = [
  '',
  'sound',
  'none',
  'nothing',
  'ok',
  'fine',
  'good',
  'still good',
  'still sound',
  'taken off sound',
  'intact',
  'in use',
  'still in use',
  'censored',
  'n/a',
  'na',
  '-',
  '–',
  '—',
];
const SUSPICION_WORDS = [
  'suspicion',
  'suspect',
  'suspected',
  'suspicious',
  'on suspicion',
  'taken off on suspicion',
  'doubt',
  'doubtful',
  'in doubt',
  'unsure',
  'not sure',
  'unknown',
  'unclear',
  '?',
  '??',
];

/** Every cause of the scenario schema, in its order. */
export const CAUSES: readonly Cause[] = ['breakage', 'chipping', 'fouling', 'coating', 'worn-out'];

/** What the column of endings may say, in the words of a scenario. */
export const ENDINGS = [...CAUSES, 'sound', 'suspicion'];

const sound: Ending = { cause: null, suspected: false, suspect: null };

interface Known {
  readonly name: string;
  readonly ending: Ending;
}

const KNOWN: ReadonlyMap<string, Known> = new Map<string, Known>([
  ...SOUND_WORDS.map((word): [string, Known] => [word, { name: 'sound', ending: sound }]),
  ...SUSPICION_WORDS.map((word): [string, Known] => [
    word,
    { name: 'suspicion', ending: { ...sound, suspected: true } },
  ]),
  ...CAUSES.flatMap((cause) =>
    [cause, ...CAUSE_WORDS[cause]].map((word): [string, Known] => [
      plain(word),
      { name: cause, ending: { ...sound, cause } },
    ]),
  ),
]);

/** Case, hyphens and doubled blanks do not matter. */
function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/(?<=\p{L})[-_](?=\p{L})/gu, ' ')
    .replace(/\s+/gu, ' ')
    .replace(/[.!]$/u, '')
    .trim();
}

/** What a cell says of the end; `broken?` and `suspected breakage` are a suspicion of breakage. */
export function readEnding(text: string): ReadEnding {
  const word = plain(text.slice(0, 200));
  const found = KNOWN.get(word);
  if (found !== undefined) {
    const isItself = word === '' || word === plain(found.name);
    return { ok: true, ending: found.ending, meant: isItself ? null : found.name };
  }
  const doubted = KNOWN.get(
    word.replace(/\s*\?+$/u, '').replace(/^(?:suspected|suspicion of|suspect|possibly|maybe|probably)\s+/u, ''),
  );
  if (doubted !== undefined && doubted.ending.cause !== null)
    return {
      ok: true,
      ending: { cause: null, suspected: true, suspect: doubted.ending.cause },
      meant: `suspicion of ${doubted.name}`,
    };
  const near = nearest(
    word,
    [...KNOWN.keys()].filter((each) => each.length > 2),
  );
  const meant = near === null ? undefined : KNOWN.get(near)?.name;
  const wanted = ENDINGS.map((each) => `\`${each}\``).join(', ');
  return {
    ok: false,
    message: `read ${show(text)} as what ended the tip${meant === undefined ? `; wanted is one of ${wanted}, or nothing` : `; did you mean \`${meant}\`?`}`,
  };
}
