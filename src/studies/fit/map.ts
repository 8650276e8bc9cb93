import { basename } from 'node:path';
import { readSheet, type Sheet } from '../../analysis/sheet.js';
import { show } from '../../scenario/show.js';
import { shellLine } from '../../scenario/shell-line.js';
import { EXIT, Failure } from '../../scenario/failure.js';
import { ENDINGS, readEnding, wordsOf } from './endings.js';
import type { Role } from './heads.js';
import { knownHeads } from './read-log.js';
import { layOut } from './layout.js';
import { type LogMapping, mappingFileOf, mappingText, OPEN } from './mapping.js';
import { propose, type Proposal } from './propose.js';
import { counted } from '../../wording/phrases.js';
import type { Ask, Ground } from '../study.js';
import type { OpenedTable } from './open-table.js';

/** Uses of a tip, of which a log has one at least. */
const USES: readonly Role[] = ['images', 'distance', 'hours', 'approaches'];

/**
 * Proposes how a log is read; on a terminal it asks and writes that down, else it prints it and stops.
 * @param before what was said of it already, which is not asked again
 */
export async function mapLog(ground: Ground, opened: OpenedTable, before: LogMapping): Promise<void> {
  const { file, sheet } = opened;
  const read = readSheet(opened.source);
  const laid = read.ok ? layOut(read.sheet, knownHeads(before.columns)) : read;
  if (!laid.ok) {
    ground.show(opened, laid.faults, 'error');
    throw new Failure(`${counted(laid.faults.length, 'error')} in ${file}; nothing was written`);
  }
  const table = laid.layout;
  const proposal = propose(table, before);
  const target = mappingFileOf(file);
  if (ground.asking === null) {
    const proposed = mappingOf({ ...before, sheet }, proposal);
    ground.result(mappingText(basename(file), proposed));
    const open = [...proposed.endings.values()].filter((meant) => meant === OPEN).length;
    throw new Failure(
      `there is no terminal to ask on; put this right${open === 0 ? '' : `, above all ${counted(open, 'word')} with \`${OPEN}\``}, and save it as ${target}`,
      EXIT.badInput,
    );
  }
  const mapping = await ground.asking((ask) => askMapping({ ...before, sheet }, table, proposal, ask));
  ground.write(target, mappingText(basename(file), mapping));
  ground.note(`wrote ${target}, which is used from now on; next:  ${shellLine('fit', file)}`);
}

function mappingOf(before: LogMapping, { columns, endings }: Proposal): LogMapping {
  const asked = endings.filter(({ isKnown }) => !isKnown).map(({ word, meant }) => [word, meant ?? OPEN] as const);
  return {
    ...before,
    columns: new Map(columns.map(({ role, head }) => [role, head])),
    endings: new Map([...before.endings, ...asked]),
  };
}

/** Asks for every column that is not plain, then for every word that is not. */
export async function askMapping(
  before: LogMapping,
  { head, rows }: Sheet,
  proposal: Proposal,
  ask: Ask,
): Promise<LogMapping> {
  const heads = head.cells.map(({ text }) => text).filter((text) => text !== '');
  const columns = new Map<Role, string>();
  for (const { role, head: text, isKnown } of proposal.columns) {
    const chosen = isKnown ? text : await askHead(`Column “${text}” holds ${role}?`, heads, text, ask);
    if (chosen !== null) columns.set(role, chosen);
  }
  if (!columns.has('ended')) {
    const chosen = await askHead('Which column says what ended a tip?', heads, null, ask);
    if (chosen !== null) columns.set('ended', chosen);
  }
  if (!USES.some((use) => columns.has(use))) {
    const chosen = await askHead('Which column counts images (or other use) of a tip?', heads, null, ask);
    if (chosen !== null) columns.set(await askUse(ask), chosen);
  }
  const at = head.cells.findIndex(({ text }) => text === columns.get('ended'));
  const proposed = new Map(proposal.endings.map((each) => [each.word, each]));
  const words = new Set(rows.map(({ cells }) => cells.at(at)?.text ?? '').filter((text) => text !== ''));
  const endings = new Map(before.endings);
  for (const word of at < 0 ? [] : words) {
    if (readEnding(word, wordsOf(before.endings)).ok) continue;
    const count = rows.filter(({ cells }) => cells.at(at)?.text === word).length;
    endings.set(
      word,
      await askEnding(`“${word}” (${counted(count, 'row')}) means`, proposed.get(word)?.meant ?? null, ask),
    );
  }
  return { ...before, columns, endings };
}

/** A head, or null where no column has it. */
async function askHead(
  question: string,
  heads: readonly string[],
  proposed: string | null,
  ask: Ask,
): Promise<string | null> {
  const choice = proposed === null ? `heads: ${heads.join(', ')}` : 'Enter: yes; another head; or - for none';
  return untilRead(`${question} [${choice}]`, ask, (answer) => {
    if (answer === '-') return null;
    return answer === '' && proposed !== null
      ? proposed
      : heads.find((text) => text.toLowerCase() === answer.toLowerCase());
  });
}

async function askUse(ask: Ask): Promise<Role> {
  return untilRead(`What does it count? [${USES.join(', ')}; Enter: images]`, ask, (answer) =>
    USES.find((use) => use === (answer === '' ? 'images' : answer)),
  );
}

async function askEnding(question: string, proposed: string | null, ask: Ask): Promise<string> {
  const usual = proposed === null ? '' : `; Enter: ${proposed}`;
  return untilRead(`${question} [${ENDINGS.join(', ')}${usual}]`, ask, (answer) => {
    const meant = answer === '' ? proposed : answer;
    return meant !== null && readEnding(meant).ok ? meant : undefined;
  });
}

/** Asks again, and says so, until the answer can be read. */
async function untilRead<Read>(question: string, ask: Ask, read: (answer: string) => Read | undefined): Promise<Read> {
  let asked = question;
  for (;;) {
    const answer = await ask(asked);
    const found = read(answer);
    if (found !== undefined) return found;
    asked = `${answer === '' ? 'Nothing' : show(answer)} is none of these. ${question}`;
  }
}
