import { type Cause, CAUSE_NAMES, declaredOf } from '../../probe/causes.js';
import { nearest } from '../../scenario/nearest.js';
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

/** What the column of endings may say, in the words of a scenario. */
export const ENDINGS = [...CAUSE_NAMES, 'sound', 'suspicion'];

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
  ...CAUSE_NAMES.flatMap((cause) =>
    [cause, ...declaredOf(cause).inLogs].map((word): [string, Known] => [
      plainWord(word),
      { name: cause, ending: { ...sound, cause } },
    ]),
  ),
]);

/** Case, hyphens and doubled blanks do not matter. */
export function plainWord(text: string): string {
  return text
    .toLowerCase()
    .replace(/(?<=\p{L})[-_](?=\p{L})/gu, ' ')
    .replace(/\s+/gu, ' ')
    .replace(/[.!]$/u, '')
    .trim();
}

/** Words of a log by their plain form. */
export function wordsOf(endings: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  return new Map([...endings].map(([word, meant]) => [plainWord(word), meant]));
}

const NO_WORDS: ReadonlyMap<string, string> = new Map();

/**
 * What a cell says of the end; `broken?` and `suspected breakage` are a suspicion of breakage.
 * @param words what words of this log mean, by their plain form
 */
export function readEnding(text: string, words = NO_WORDS): ReadEnding {
  const meaning = words.get(plainWord(text.slice(0, 200)));
  if (meaning !== undefined) {
    const reading = readEnding(meaning);
    return reading.ok ? { ...reading, meant: reading.meant ?? meaning } : reading;
  }
  const word = plainWord(text.slice(0, 200));
  const found = KNOWN.get(word);
  if (found !== undefined) {
    const isItself = word === '' || word === plainWord(found.name);
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
    message: `read ${show(text)} as what ended the tip${meant === undefined ? `; expected one of ${wanted}, or nothing; \`fit --map\` asks what such words mean` : `; did you mean \`${meant}\`?`}`,
  };
}
