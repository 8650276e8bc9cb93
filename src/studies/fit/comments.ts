import { Lexer } from 'yaml';

/** A comment of a YAML file. */
export interface PlacedComment {
  /** From 1. */
  readonly line: number;
  /** Without its `#`. */
  readonly comment: string;
}

/** A comment with what it stands beside, or above where it has a line of its own; blanks do not count. */
interface Beside extends PlacedComment {
  readonly code: string;
}

/** Tokens that stand for no text: starts of documents and flow, ends of flow. */
const NO_TEXT: readonly string[] = ['\u0002', '\u0018', '\u0019', '\u001f'];

/** Comments that stand beside a value which is another now: what they say may no longer be true. */
export function doubtfulComments(before: string, after: string): readonly PlacedComment[] {
  const keyOf = ({ code, comment }: Beside) => `${code} # ${comment}`;
  const known = new Set(commentsOf(before).map(keyOf));
  return commentsOf(after)
    .filter((each) => !known.has(keyOf(each)))
    .map(({ line, comment }) => ({ line, comment }));
}

function commentsOf(text: string): readonly Beside[] {
  const lines = [{ code: '', comment: '' }];
  for (const token of new Lexer().lex(text)) {
    if (NO_TEXT.includes(token)) continue;
    const [first, ...others] = token.split('\n');
    const here = lines[lines.length - 1];
    if (token.startsWith('#')) here.comment = token.slice(1).trim();
    else here.code += first.replace(/\s/gu, '');
    for (const other of others) lines.push({ code: other.replace(/\s/gu, ''), comment: '' });
  }
  return lines.flatMap(({ code, comment }, index) => {
    if (comment === '') return [];
    const next = lines.slice(index + 1).find((line) => line.code !== '');
    return [{ line: index + 1, comment, code: code === '' ? (next?.code ?? '') : code }];
  });
}
