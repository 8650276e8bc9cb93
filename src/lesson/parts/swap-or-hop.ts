import { durationText } from '../../report/format.js';
import type { Change } from '../change.js';
import { atRest, slider, statusLine, takeAlong } from '../controls.js';
import { button, element } from '../dom.js';
import { Figure } from '../figure.js';
import type { Part, Stage } from '../part.js';
import { quiz } from '../quiz.js';
import { type NumberSetting } from '../state.js';
import { PREPARATION_ANSWERS } from '../tasks/answers.js';
import type { SwapOrHop } from '../tasks/swap-or-hop.js';
import { tools } from '../tools.js';

const FACTOR = { start: 1, least: 0.2, most: 4, step: 0.2 };
const PREPARATION: NumberSetting = { ...FACTOR, key: 'ways-preparation' };
const BREAKAGE: NumberSetting = { ...FACTOR, key: 'ways-breakage' };
const FOULING: NumberSetting = { ...FACTOR, key: 'ways-fouling' };
const AFTERNOON: NumberSetting = { key: 'ways-afternoon', start: 1, least: 1, most: 100_000, step: 1 };

const often = (factor: number) => (factor === 1 ? 'as in the scenario' : `${factor.toFixed(1)} × as often`);

/** What one afternoon and many say of the two ways. */
function said({ ends, difference, hopFaster, done }: SwapOrHop, afternoon: number): string {
  const [swapped, hopped] = ends;
  const one = `Afternoon ${afternoon}: ${durationText(swapped)} swapped, ${durationText(hopped)} hopped.`;
  if (difference === null || hopFaster === null) return one;
  const { value, low, high } = difference;
  const [least, most] = [Math.abs(low), Math.abs(high)].sort((a, b) => a - b).map(durationText);
  const many =
    low > 0 || high < 0
      ? `hopping takes ${durationText(Math.abs(value))} ${value < 0 ? 'less' : 'more'} on average (${least} to ${most})`
      : 'the two are not told apart on average';
  return `${one} Over ${done} afternoons ${many}; it is the faster way in ${Math.round(100 * hopFaster)} of 100.`;
}

function content(stage: Stage): readonly Node[] {
  const { facts, state, engine, seed } = stage;
  const swap = facts.strategies.find(({ workflow }) => workflow === 'swap');
  const hop = facts.strategies.find(({ workflow }) => workflow === 'hop');
  if (swap === undefined || hop === undefined)
    return [
      element(
        'p',
        {},
        'This scenario has only one of the two ways of working, so there is nothing to lay side by side. The scenario that comes with this program has both.',
      ),
    ];
  const figure = new Figure(
    'One afternoon, swapped and hopped',
    'Above in each row, what the time went to; below, the state of the tip, parted at every change of tip. Both rows meet the same luck.',
  );
  const line = statusLine();
  const changes = (): readonly Change[] => [
    { strategy: hop.name, scale: 'preparation', factor: state.number(PREPARATION) },
    ...[swap.name, hop.name].flatMap((strategy): readonly Change[] => [
      { strategy, scale: 'breakage', factor: state.number(BREAKAGE) },
      { strategy, scale: 'fouling', factor: state.number(FOULING) },
    ]),
  ];
  let drop: (() => void) | null = null;
  const ask = () => {
    drop?.();
    const replication = state.number(AFTERNOON);
    let last: SwapOrHop | null = null;
    const question = { changes: changes(), seed, swap: swap.name, hop: hop.name, replication };
    drop = engine.ask('swapOrHop', question, {
      onAnswer: (answer) => {
        last = answer;
        figure.show(answer.svg, answer.done / answer.of, null);
      },
      onEnd: () => {
        if (last !== null) line.textContent = said(last, replication);
      },
      onFault: (message) => {
        line.textContent = `Nobody should measure like this: ${message}`;
      },
    });
  };
  const changed = atRest(ask);
  changed();
  const preparing = hop.preparing ?? 0;
  return [
    element(
      'p',
      {},
      'When a tip has gone, there are two ways on. Swap: take the probe out by hand and put a new one in. Hop: keep the sample on a small lever above a chip of many tips, and step to the next one; but then each sample must first be prepared on its lever.',
    ),
    element(
      'div',
      { class: 'controls' },
      slider(
        state,
        PREPARATION,
        'Preparation for hopping',
        (factor) => `about ${durationText(preparing * factor)} a try`,
        changed,
      ),
      slider(state, BREAKAGE, 'Tips break', often, changed),
      slider(state, FOULING, 'Tips pick up dirt', often, changed),
    ),
    element(
      'div',
      { class: 'row' },
      button('Another afternoon', () => {
        state.put(AFTERNOON, state.number(AFTERNOON) + 1);
        ask();
      }),
    ),
    figure.node,
    line,
    takeAlong(
      'Hopping pays its price once, before the first image; swapping pays at every change of tip.',
      'So count the changes that your plan will need, not the minutes of one of them.',
    ),
    quiz(stage, {
      task: 'preparationQuestion',
      question:
        'With some practice, preparing takes a fifth of its time; all else is as in the scenario. Which way takes less time on average?',
      answers: PREPARATION_ANSWERS,
      asked: () => ({ changes: [], seed, strategy: hop.name }),
    }),
    tools(stage, 'swap-or-hop', changes),
  ];
}

export const swapOrHop: Part = { id: 'ways', title: 'Swap or hop', content };
