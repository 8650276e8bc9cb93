import { pow } from '../../chance/elementary.js';
import type { Setting } from '../../scenario/ranges.js';
import { type Reading, splitQuantity, tidy } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';

/** Numbers to be tried, between two ends and in one unit. */
export interface Span {
  readonly low: number;
  readonly high: number;
  /** As it is written behind the number; empty where there is none. */
  readonly unit: string;
  /** Distance of the numbers tried; null where their count is asked for, or nothing. */
  readonly step: number | null;
  /** How many numbers are tried; null where a step is asked for, or nothing. */
  readonly count: number | null;
  /** Equal ratios in place of equal distances. */
  readonly isLog: boolean;
}

/** One part of a range as it is typed: a span of numbers, or a single setting. */
export type RangePart = { readonly span: Span } | { readonly single: Setting };

export const RANGE_HELP =
  'LOW..HIGH with its unit (`5..60 images`), with ` by STEP`, ` in COUNT` or ` in COUNT log` behind it, or settings with commas between (`none` takes the value away)';

/** Most settings of one path; more are hardly meant. */
const MOST = 1000;

/** Reads `5..60 images by 5, none` and the like. */
export function readRange(text: string): Reading<readonly RangePart[]> {
  const parts: RangePart[] = [];
  for (const piece of text.split(',').map((each) => each.trim())) {
    const part = piece.includes('..') ? readSpan(piece) : readSingle(piece);
    if (!part.ok) return part;
    parts.push(part.value);
  }
  return { ok: true, value: parts };
}

function readSingle(text: string): Reading<RangePart> {
  if (text === '') return { ok: false, message: `nothing is written between two commas; ${RANGE_HELP} is wanted` };
  if (text === 'none') return { ok: true, value: { single: null } };
  if (text === 'true' || text === 'false') return { ok: true, value: { single: text === 'true' } };
  const parts = splitQuantity(text);
  return { ok: true, value: { single: parts?.unit === '' ? parts.number : text } };
}

const SPAN = /^(.+?)\s*\.\.\s*(.+?)(?:\s+by\s+(\S.*)|\s+in\s+(\d+)(\s+log)?)?$/u;

function readSpan(text: string): Reading<RangePart> {
  const refuse = (why: string): Reading<RangePart> => ({ ok: false, message: `read ${show(text)}${why}` });
  const match = SPAN.exec(text);
  if (match === null) return refuse(`; ${RANGE_HELP} is wanted`);
  const [, from, to, by, many, log] = match.map((group: string | undefined) => group ?? '');
  const [low, high] = [splitQuantity(from), splitQuantity(to)];
  if (low === null || high === null) return refuse(', of which both ends must be numbers');
  if (low.unit !== '' && low.unit !== high.unit)
    return refuse(`, whose ends are in two units; write both in \`${high.unit === '' ? low.unit : high.unit}\``);
  if (!(low.number < high.number)) return refuse(', whose first end must be less than its second');
  const step = by === '' ? null : splitQuantity(by);
  if (by !== '' && (step === null || !(step.number > 0) || (step.unit !== '' && step.unit !== high.unit)))
    return refuse(`, whose step must be a number above zero${high.unit === '' ? '' : ` in \`${high.unit}\``}`);
  const count = many === '' ? null : Number(many);
  if (count !== null && (count < 2 || count > MOST)) return refuse(`, whose count must be from 2 to ${MOST}`);
  if (log !== '' && !(low.number > 0)) return refuse(', whose ends must be above zero for equal ratios');
  if (step !== null && (high.number - low.number) / step.number > MOST)
    return refuse(`, which has more than ${MOST} steps`);
  const span = { low: low.number, high: high.number, unit: high.unit, step: step?.number ?? null, count };
  return { ok: true, value: { span: { ...span, isLog: log !== '' } } };
}

/** A number of a span as a person writes it. */
export function written(number: number, unit: string): number | string {
  const tidied = tidy(number);
  return unit === '' ? tidied : `${tidied} ${unit}`;
}

/** Numbers that are tried where nothing is said, and the most whole numbers that are all tried. */
const USUAL_COUNT = 11;
const FEW = 60;

/** The numbers of a span that are tried, in ascending order. `isWhole`: only whole numbers make sense. */
export function numbersOf({ low, high, step, count, isLog }: Span, isWhole: boolean): readonly number[] {
  if (step !== null) return stepped(low, high, step);
  if (count === null && isWhole && high - low < FEW) return stepped(low, high, 1);
  const many = count ?? USUAL_COUNT;
  const spread = Array.from({ length: many }, (_, place) => between(low, high, place / (many - 1), isLog));
  return isWhole ? [...new Set(spread.map((number) => Math.floor(number + 0.5)))] : spread;
}

function stepped(low: number, high: number, step: number): readonly number[] {
  const many = Math.floor((high - low) / step + 1e-9) + 1;
  return Array.from({ length: many }, (_, place) => tidy(low + place * step));
}

/** The number at a share of the way from one end to the other. */
export function between(low: number, high: number, share: number, isLog: boolean): number {
  if (share === 0) return low;
  if (share === 1) return high;
  return isLog ? low * pow(high / low, share) : low + (high - low) * share;
}
