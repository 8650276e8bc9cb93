import type { LogNext } from '../study/not-knowing/results.js';
import { widthText } from '../study/not-knowing/said.js';
import { measureName } from '../study/words.js';
import { type Known, spanText } from './charts/not-knowing.js';
import { numberText, SHARE } from './format.js';
import { measureScale } from './measure-scale.js';
import { block, fits, spaced, wrapped } from './terminal-columns.js';
import { plainText } from './text.js';

/** Inputs that are named; the page has all. */
const MOST_NAMED = 3;

/** What is luck and what is not knowing, in time, and what to log next. `names` are those of the strategies. */
export function unknownText(known: Known, names: readonly string[], width: number): string {
  const { strategies, logNext } = known.notKnowing;
  const what = measureName('time');
  const scale = measureScale('time', known);
  const spans = strategies
    .filter(({ measure }) => measure === 'time')
    .map(({ luckAlone, luckAndNotKnowing }, place) => [
      names[place],
      spaced(spanText(luckAlone, scale)),
      spaced(spanText(luckAndNotKnowing, scale)),
    ]);
  const table = block(['strategy', 'by luck alone', 'with not knowing'], spans, 1, 2);
  const lines = spans.map(([name, alone, both]) =>
    wrapped(`${name}: ${alone} by luck alone, ${both} with not knowing`, width),
  );
  const level = numberText(known.confidence.level, SHARE);
  return [
    wrapped(`${what.slice(0, 1).toUpperCase()}${what.slice(1)} of one campaign, middle ${level}`, width),
    fits(table, width) ? table : lines.join('\n'),
    wrapped(`What to log next: ${logNext.slice(0, MOST_NAMED).map(said).join('; ')}.`, width),
  ].join('\n');
}

function said({ description, effects }: LogNext): string {
  const largest = effects
    .filter(({ measure }) => measure === 'time')
    .reduce((most, { share }) => Math.max(most, share ?? 0), 0);
  const turns = effects.some(({ couldTurn }) => couldTurn) ? ', and could turn a difference' : '';
  return `${plainText(description)} (alone a span of the time ${widthText(largest)}${turns})`;
}
