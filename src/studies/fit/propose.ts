import type { Sheet } from '../../analysis/sheet.js';
import { isMissing } from '../../analysis/missing.js';
import { readEnding, wordsOf } from './endings.js';
import { type LogMapping, NO_MAPPING } from './mapping.js';
import { headOf, ROLE_NAMES, type Role, roleOf } from './heads.js';

/** A column that may hold something. */
export interface ProposedColumn {
  readonly role: Role;
  readonly head: string;
  /** Whether its head says so itself. */
  readonly isKnown: boolean;
}

/** A word for what ended a tip. */
export interface ProposedEnding {
  readonly word: string;
  readonly rows: number;
  /** What it may mean; null where nothing is like it. */
  readonly meant: string | null;
  /** Whether it is read so without being asked for. */
  readonly isKnown: boolean;
}

export interface Proposal {
  readonly columns: readonly ProposedColumn[];
  readonly endings: readonly ProposedEnding[];
}

/** Words in heads, in some languages of the trade, that say what a column may hold. Common usage, no source. */
const HEADS: readonly (readonly [Role, RegExp])[] = [
  ['images', /\b(?:images?|scans?|frames?|bild(?:er)?|aufnahmen|im[aá]genes|immagini|beelden|画像|图像)\b/u],
  ['distance', /\b(?:path|distance|travel|weg|strecke|gleitweg|recorrido|distancia|percorso|distanza)\b/u],
  ['hours', /\b(?:hours?|hrs?|stunden|heures|horas|ore|uren|minutes?|zeit|time on)\b/u],
  ['approaches', /\b(?:approach(?:es)?|engage\w*|annäherungen|approches|aproximaciones|avvicinamenti)\b/u],
  [
    'ended',
    /\b(?:why|reason|end\w*|fail\w*|happened|cause|status|state|fate|result|grund|ende|ausfall\w*|ursache|zustand|raison|fin|état|motivo|causa|fine|stato|estado|reden|einde)\b/u,
  ],
  ['load', /\b(?:load|force|setpoint|kraft|last|fuerza|forza|kracht)\b/u],
  ['date', /\b(?:date|day|datum|fecha|data|jour)\b/u],
  ['kind', /\b(?:kind|type|typ|art|tipo|model|sorte)\b/u],
  ['tip', /\b(?:tips?|probes?|needle|spitzen?|sonde|nadel|pointe|punta|sonda|探针|探針|no|nr|id)\b/u],
];
const NUMERIC: readonly Role[] = ['images', 'distance', 'hours', 'approaches', 'load'];

/** Parts of words that people write for an ending, in some languages; the first that fits. Common usage, no source. */
const ENDINGS_LIKE: readonly (readonly [string, RegExp])[] = [
  ['suspicion', /\?|suspe|suspi|doubt|maybe|perhaps|strange|weird|verdacht|unklar/u],
  ['coating', /coat|metal|delamin|conduct|beschicht|revêt|recubr|rivest/u],
  ['breakage', /br[eo]ak|broke|snap|crash|fractur|gebrochen|bruch|cass[ée]|rott?[ao]|rupt|quebr|gebroken/u],
  ['chipping', /chip|splinter|absplitter|gesplittert|ébréch|astill|schegg/u],
  [
    'fouling',
    /contam|kontam|pollu|polymer|dirt|debris|dust|partic|residue|stuck|picked|glue|foul|schmutz|unrein|encrass|suci|sporc|vervuil/u,
  ],
  ['worn-out', /worn|wear|blunt|dull|abgenutzt|stumpf|verschlei|usée?\b|usur|desgast|consum|versleten/u],
  [
    'sound',
    /chang|swap|new sample|end of|finish|done|still|ok\b|fine|good|fit\b|in use|removed|stored|noch|gut\b|heil|intakt|encore|bonn?e?\b|buon|ancora|bien|goed/u,
  ],
];

/**
 * What the columns and words of a log may mean: what is known of itself first, then what looks like it.
 * @param before what was said of it already
 */
export function propose({ head, rows }: Sheet, before: LogMapping = NO_MAPPING): Proposal {
  const columns: ProposedColumn[] = [];
  const isFree = (role: Role, text: string) => !columns.some((each) => each.role === role || each.head === text);
  const heads = head.cells.map(({ text }, index) => ({ text, index })).filter(({ text }) => text !== '');
  for (const [role, text] of before.columns)
    if (heads.some((each) => each.text === text)) columns.push({ role, head: text, isKnown: true });
  for (const { text } of heads) {
    const role = roleOf(headOf(text));
    if (role !== null && isFree(role, text)) columns.push({ role, head: text, isKnown: true });
  }
  for (const [role, like] of HEADS) {
    const found = heads.find(({ text, index }) => {
      const cells = rows.map(({ cells: row }) => row.at(index)?.text ?? '').filter((cell) => !isMissing(cell));
      const numbers = cells.filter((cell) => /^[+-]?[\d.,]+/u.test(cell)).length;
      const isFitting = !NUMERIC.includes(role) || numbers > cells.length / 2;
      return isFree(role, text) && isFitting && like.test(headOf(text).bare.toLowerCase());
    });
    if (found !== undefined) columns.push({ role, head: found.text, isKnown: false });
  }
  const ended = columns.find(({ role }) => role === 'ended')?.head;
  const at = head.cells.findIndex(({ text }) => text === ended);
  const order = (role: Role) => ROLE_NAMES.indexOf(role);
  return {
    columns: columns.toSorted((a, b) => order(a.role) - order(b.role)),
    endings:
      at < 0
        ? []
        : endingsIn(
            rows.map(({ cells }) => cells.at(at)?.text ?? ''),
            wordsOf(before.endings),
          ),
  };
}

function endingsIn(texts: readonly string[], words: ReadonlyMap<string, string>): readonly ProposedEnding[] {
  const counts = new Map<string, number>();
  for (const text of texts) if (text !== '') counts.set(text, (counts.get(text) ?? 0) + 1);
  return [...counts]
    .map(([word, rows]) => {
      const reading = readEnding(word, words);
      return { word, rows, isKnown: reading.ok, meant: reading.ok ? (reading.meant ?? word) : meaningOf(word) };
    })
    .sort((a, b) => b.rows - a.rows);
}

function meaningOf(word: string): string | null {
  return ENDINGS_LIKE.find(([, like]) => like.test(word.toLowerCase()))?.[0] ?? null;
}
