import { paceChanges } from '../change.js';
import { ALWAYS } from '../../report/cautions.js';
import { durationText, estimateText, PLAIN, SHARE, workScale } from '../../report/format.js';
import { atRest, menu, slider, statusLine, takeAlong } from '../controls.js';
import { element } from '../dom.js';
import { dataTable, Figure } from '../figure.js';
import type { Part, Stage } from '../part.js';
import { quiz } from '../quiz.js';
import type { NumberSetting } from '../state.js';
import { HANDS_ANSWERS } from '../tasks/answers.js';
import type { AtPace, Rushing } from '../tasks/rushing.js';
import { tools } from '../tools.js';

const PACE: NumberSetting = { key: 'rushing-scan', start: 1, least: 0.5, most: 3, step: 0.05 };
const HANDS: NumberSetting = { key: 'rushing-hands', start: 1, least: 0.5, most: 3, step: 0.1 };
/** Tried beside the person's own choice. */
const GRID = [0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3];

const times = (value: number) => (value === 1 ? 'the usual pace' : `${String(value)} × the usual pace`);

/** What the person chose, beside the usual pace and the best. */
function comparison({ points, refused }: Rushing, chosen: number): string {
  const impossible = refused.find(({ at }) => at === chosen);
  if (impossible !== undefined) return `Nobody should measure like this: ${impossible.message}`;
  const mine = points.find(({ pace }) => pace === chosen);
  const usual = points.find(({ pace }) => pace === 1);
  const best = points.reduce((least, each) => (each.time.value < least.time.value ? each : least), points[0]);
  if (mine === undefined || usual === undefined) return '';
  const difference = mine.time.value - usual.time.value;
  const beside =
    chosen === 1
      ? ''
      : `On average that is ${durationText(Math.abs(difference))} ${difference > 0 ? 'more' : 'less'} than at the usual pace.`;
  return `At ${times(chosen)} an afternoon takes ${durationText(mine.time.value)}, with ${estimateText(mine.lost, PLAIN).value} scans lost and a yield of ${estimateText(mine.yield, SHARE).value}. ${beside} The shortest of those tried is at ${times(best.pace)}, the best yield at ${times(bestYield(points).pace)}.`;
}

function bestYield(points: readonly AtPace[]): AtPace {
  return points.reduce((most, each) => (each.yield.value > most.yield.value ? each : most), points[0]);
}

function table({ points, done }: Rushing): HTMLElement {
  return dataTable(
    `Means over ${done} afternoons`,
    ['Pace of scanning', 'Time', 'Scans lost', 'Yield', 'Tips'],
    points.map(({ pace, time, lost, yield: share, tips }) => [
      String(pace),
      estimateText(time, workScale(time.value)).value,
      estimateText(lost, PLAIN).value,
      estimateText(share, SHARE).value,
      estimateText(tips, PLAIN).value,
    ]),
  );
}

function content(stage: Stage): readonly Node[] {
  const { engine, facts, state, seed } = stage;
  const names = facts.strategies.map(({ name }) => name);
  const WHO = { key: 'rushing-strategy', start: names[0], options: names };
  const figure = new Figure(
    'What a hurry does',
    'Each point is the mean over the same afternoons, with its interval as a band; the dashed upright is your choice. It grows steady as more afternoons are run.',
  );
  const said = statusLine();
  let drop: (() => void) | null = null;
  const choice = () => ({ strategy: state.choice(WHO), chosen: state.number(PACE), hands: state.number(HANDS) });
  const ask = () => {
    drop?.();
    const asked = choice();
    let last: Rushing | null = null;
    const paces = [...new Set([...GRID, asked.chosen])].sort((a, b) => a - b);
    drop = engine.ask(
      'rushing',
      { changes: [], seed, ...asked, paces, width: figure.width },
      {
        onAnswer: (answer) => {
          last = answer;
          figure.show(answer.svg, answer.done / answer.of, table(answer));
        },
        onEnd: () => {
          if (last !== null) said.textContent = comparison(last, asked.chosen);
        },
        onFault: (message) => {
          said.textContent = message;
        },
      },
    );
  };
  const changed = atRest(ask);
  changed();
  return [
    element(
      'p',
      {},
      'Scan faster, and each image takes less time. But the tip follows the surface less well, and knocks against it harder. Hurry with your hands, and each exchange takes less time, but more of them go wrong. Here are a thousand afternoons for every pace.',
    ),
    element(
      'div',
      { class: 'controls' },
      ...(names.length > 1 ? [menu(state, WHO, 'Way of working', changed)] : []),
      slider(state, PACE, 'Pace of scanning', times, changed),
      slider(state, HANDS, 'Pace of hands', times, changed),
    ),
    element(
      'p',
      { class: 'note' },
      `Hands come near the laser and the high voltage of the scanner in each exchange. ${ALWAYS}`,
    ),
    figure.node,
    said,
    takeAlong(
      'A hurry saves a little time on every image, and loses whole images: beyond some pace the losses win.',
      'Find that pace before you need it, and never look for it in the steps that keep you or the instrument safe.',
    ),
    quiz(stage, {
      task: 'handsQuestion',
      question: 'Hands twice as fast, scanning at the usual pace: how does that make the afternoon on average?',
      answers: HANDS_ANSWERS,
      asked: () => ({ changes: [], seed, strategy: state.choice(WHO) }),
    }),
    tools(stage, 'rushing', () => {
      const { strategy, chosen, hands } = choice();
      return paceChanges(strategy, chosen, hands);
    }),
  ];
}

export const rushing: Part = { id: 'rushing', title: 'Rushing', content };
