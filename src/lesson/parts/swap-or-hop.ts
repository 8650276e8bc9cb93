import { durationText } from '../../report/format.js';
import type { Estimate } from '../../study/results.js';
import type { Change } from '../change.js';
import { atRest, slider, statusLine, keyPoint } from '../controls.js';
import { button, element } from '../dom.js';
import { Figure } from '../figure.js';
import type { Part, Stage } from '../part.js';
import { quiz } from '../quiz.js';
import { type NumberSetting } from '../state.js';
import { PREPARATION_ANSWERS } from '../tasks/answers.js';
import type { SwapOrHop } from '../tasks/swap-or-hop.js';
import { tools } from '../tools.js';
import { INSTRUMENT_TIME, OPERATOR_TIME } from '../../study/words.js';

const FACTOR = { start: 1, least: 0.2, most: 4, step: 0.2 };
const PREPARATION: NumberSetting = { ...FACTOR, key: 'ways-preparation' };
const BREAKAGE: NumberSetting = { ...FACTOR, key: 'ways-breakage' };
const FOULING: NumberSetting = { ...FACTOR, key: 'ways-fouling' };
const CAMPAIGN: NumberSetting = { key: 'ways-campaign', start: 1, least: 1, most: 100_000, step: 1 };

const often = (factor: number) => (factor === 1 ? 'as in the scenario' : `${factor.toFixed(1)} × as often`);

/** What one campaign and many say of the two workflows. */
function said({ spent, many, done }: SwapOrHop, campaign: number): string {
  const each = ['swap', 'hop'].map(
    (name, place) =>
      `${name} takes ${durationText(spent[place].time)} of ${INSTRUMENT_TIME} and ${durationText(spent[place].operator)} of ${OPERATOR_TIME}`,
  );
  const one = `Campaign ${campaign}: ${each.join('; ')}.`;
  if (many === null) return one;
  return `${one} Over ${done} campaigns hop takes ${moreText(many.difference, INSTRUMENT_TIME)}, and ${moreText(many.operator, OPERATOR_TIME)}. It takes less ${INSTRUMENT_TIME} in ${Math.round(100 * many.hopFaster)} of 100.`;
}

/** How much more or less, with the interval; both directions where it is not clear. */
function moreText({ value, low, high }: Estimate, what: string): string {
  const [below, above] = [low, high].map((end) => durationText(Math.abs(end)));
  if (low < 0 && high > 0) return `from ${below} less to ${above} more ${what} (no clear difference)`;
  const span = value < 0 ? `${above} to ${below}` : `${below} to ${above}`;
  return `${durationText(Math.abs(value))} ${value < 0 ? 'less' : 'more'} ${what} (95 % interval ${span})`;
}

/** Where the price of array-hop is paid. */
const PLACES: Readonly<
  Record<'bench' | 'instrument', { readonly intro: string; readonly key: string; readonly question: string }>
> = {
  bench: {
    intro: 'Here that is done at the bench before the session: it takes operator time, and none of the instrument’s.',
    key: 'Array-hop pays its price once, at the bench, in operator time; swap pays at every change of tip, in instrument time. So look at both times, and count the changes that your plan will need.',
    question:
      'With some practice, preparing takes a fifth of its time; all else is as in the scenario. Which workflow takes less operator time on average?',
  },
  instrument: {
    intro: 'Here that is done at the instrument, and takes its time.',
    key: 'Array-hop pays its price once, before the first image; swap pays at every change of tip. So count the changes that your plan will need, not the minutes of one of them.',
    question:
      'With some practice, preparing takes a fifth of its time; all else is as in the scenario. Which workflow takes less time on average?',
  },
};

function content(stage: Stage): readonly Node[] {
  const { facts, state, engine, seed } = stage;
  const swap = facts.strategies.find(({ workflow }) => workflow === 'swap');
  const hop = facts.strategies.find(({ workflow }) => workflow === 'hop');
  if (swap === undefined || hop === undefined)
    return [
      element(
        'p',
        {},
        'This scenario has only one of the two workflows, so there is nothing to compare. The scenario that comes with this program has both.',
      ),
    ];
  const figure = new Figure(
    'One campaign, swap and hop',
    'Above in each row, what the time went to; below, the state of the tip, parted at every change of tip. Both rows have common random numbers.',
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
    const replication = state.number(CAMPAIGN);
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
  const preparing = hop.preparing ?? { time: 0, at: 'bench' };
  const { intro, key, question } = PLACES[preparing.at];
  return [
    element(
      'p',
      {},
      `When a tip is spoiled, there are two ways on. Swap: take the probe out by hand and put a new one in. Array-hop: the sample rides on a small lever above a chip of many tips, and steps to the next one; but then each specimen must first be prepared on its lever. ${intro}`,
    ),
    element(
      'div',
      { class: 'controls' },
      slider(
        state,
        PREPARATION,
        'Preparation for array-hop',
        (factor) => `about ${durationText(preparing.time * factor)} a try`,
        changed,
      ),
      slider(state, BREAKAGE, 'Tips break', often, changed),
      slider(state, FOULING, 'Tips are contaminated', often, changed),
    ),
    element(
      'div',
      { class: 'row' },
      button('Another campaign', () => {
        state.put(CAMPAIGN, state.number(CAMPAIGN) + 1);
        ask();
      }),
    ),
    figure.node,
    line,
    keyPoint(element('p', {}, key)),
    quiz(stage, {
      task: 'preparationQuestion',
      question,
      answers: PREPARATION_ANSWERS,
      asked: () => ({ changes: [], seed, strategy: hop.name }),
    }),
    tools(stage, 'swap-or-hop', changes),
  ];
}

export const swapOrHop: Part = { id: 'ways', title: 'Swap or hop', content };
