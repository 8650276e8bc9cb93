import { paceChanges } from '../change.js';
import { ALWAYS } from '../../report/cautions.js';
import { durationText, estimateText, fixed, PLAIN, SHARE, workScale } from '../../report/format.js';
import { atRest, menu, slider, statusLine, keyPoint } from '../controls.js';
import { element } from '../dom.js';
import { dataTable, Figure } from '../figure.js';
import type { Part, Stage } from '../part.js';
import { quiz } from '../quiz.js';
import type { NumberSetting } from '../state.js';
import { HANDS_ANSWERS } from '../tasks/answers.js';
import type { AtPace, Rushing } from '../tasks/rushing.js';
import { paceText, rushingLesson } from '../rushing-words.js';
import { tools } from '../tools.js';

const PACE: NumberSetting = { key: 'rushing-scan', start: 1, least: 0.5, most: 3, step: 0.05 };
const HANDS: NumberSetting = { key: 'rushing-hands', start: 1, least: 0.5, most: 3, step: 0.1 };
/** Tried beside the person's own choice. */
const GRID = [0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3];

const minutes = (seconds: number) => `${fixed(seconds / 60, 1)} min`;

/** What the person chose, beside the usual pace and the best. */
function comparison({ points, refused }: Rushing, chosen: number): string {
  const impossible = refused.find(({ at }) => at === chosen);
  if (impossible !== undefined) return `Nobody should measure like this: ${impossible.message}`;
  const mine = points.find(({ pace }) => pace === chosen);
  const usual = points.find(({ pace }) => pace === 1);
  if (mine === undefined || usual === undefined) return '';
  const best = points.reduce((least, each) => (each.perGood.value < least.perGood.value ? each : least));
  const difference = mine.time.value - usual.time.value;
  const beside =
    chosen === 1
      ? ''
      : `On average that is ${durationText(Math.abs(difference))} ${difference > 0 ? 'more' : 'less'} than at the usual pace.`;
  return `At ${paceText(chosen)} all images take ${durationText(mine.time.value)} of instrument time, with ${estimateText(mine.lost, PLAIN).value} scans lost and a yield of ${estimateText(mine.yield, SHARE).value}. ${beside} A good image takes ${minutes(mine.perGood.value)}; the least of those tried is ${minutes(best.perGood.value)}, at ${paceText(best.pace)}, the best yield at ${paceText(bestYield(points).pace)}.`;
}

function bestYield(points: readonly AtPace[]): AtPace {
  return points.reduce((most, each) => (each.yield.value > most.yield.value ? each : most), points[0]);
}

function table({ points, done }: Rushing, head: string): HTMLElement {
  return dataTable(
    `Means over ${done} campaigns`,
    [head, 'Time', 'Time for a good image', 'Scans lost', 'Yield', 'Tips'],
    points.map(({ pace, time, perGood, lost, yield: share, tips }) => [
      String(pace),
      estimateText(time, workScale(time.value)).value,
      estimateText(perGood, workScale(perGood.value)).value,
      estimateText(lost, PLAIN).value,
      estimateText(share, SHARE).value,
      estimateText(tips, PLAIN).value,
    ]),
  );
}

/** The two paces: what is varied while the other one stays as it is chosen. */
const ALONG = [
  {
    along: 'scan',
    own: PACE,
    other: HANDS,
    name: 'Pace of scanning',
    title: 'Scanning faster',
    hurry: 'faster scanning',
  },
  { along: 'hands', own: HANDS, other: PACE, name: 'Pace of hands', title: 'Quicker hands', hurry: 'quicker hands' },
] as const;

function content(stage: Stage): readonly Node[] {
  const { engine, facts, state, seed } = stage;
  const names = facts.strategies.map(({ name }) => name);
  const WHO = { key: 'rushing-strategy', start: names[0], options: names };
  const costs = element('p', { class: 'costs' });
  const courses = ALONG.map(({ along, own, other, name, title, hurry }) => {
    const figure = new Figure(
      title,
      'Each point is the mean over the same campaigns, with its 95 % interval as a band; the dashed vertical line is your choice. It settles as more campaigns are run.',
    );
    const said = statusLine();
    const lesson = element('span', {}, `${title}: it comes once every pace has been computed.`);
    let drop: (() => void) | null = null;
    const ask = () => {
      drop?.();
      const [chosen, held] = [own, other].map((setting) => state.number(setting));
      let last: Rushing | null = null;
      const paces = [...new Set([...GRID, chosen])].sort((a, b) => a - b);
      const question = { along, strategy: state.choice(WHO), paces, chosen, held, width: figure.width };
      drop = engine.ask(
        'rushing',
        { changes: [], seed, ...question },
        {
          onAnswer: (answer) => {
            last = answer;
            figure.show(answer.svg, answer.done / answer.of, table(answer, name));
          },
          onEnd: () => {
            if (last === null) return;
            said.textContent = comparison(last, chosen);
            lesson.textContent = rushingLesson(last.points, hurry).join(' ');
          },
          onFault: (message) => {
            said.textContent = message;
          },
        },
      );
    };
    return { ask, lesson, nodes: [element('h3', {}, title), figure.node, said] };
  });
  const changed = atRest(() => {
    const haste = facts.strategies.find(({ name }) => name === state.choice(WHO))?.haste;
    costs.replaceChildren(haste?.scan ?? '', ' ', haste?.hands ?? '');
    for (const { ask } of courses) ask();
  });
  changed();
  const [scanning, hands] = courses;
  return [
    costs,
    element(
      'p',
      {},
      'Scan faster, and each image takes less time; hurry by hand, and each manual step does. What that costs in return depends on the tip, the feedback loop and the hands. Here are a thousand campaigns for every pace.',
    ),
    element(
      'div',
      { class: 'controls' },
      ...(names.length > 1 ? [menu(state, WHO, 'Workflow', changed)] : []),
      ...ALONG.map(({ own, name }) => slider(state, own, name, paceText, changed)),
    ),
    element(
      'p',
      { class: 'note' },
      `Hands come near the laser and the high voltage of the scanner in each exchange. ${ALWAYS}`,
    ),
    ...courses.flatMap(({ nodes }) => nodes),
    keyPoint(element('p', {}, scanning.lesson, ' ', hands.lesson)),
    quiz(stage, {
      task: 'handsQuestion',
      question:
        'Hands twice as fast, scanning at the usual pace: how does that change the time for all images on average?',
      answers: HANDS_ANSWERS,
      asked: () => ({ changes: [], seed, strategy: state.choice(WHO) }),
    }),
    tools(stage, 'rushing', () => paceChanges(state.choice(WHO), state.number(PACE), state.number(HANDS))),
  ];
}

export const rushing: Part = { id: 'rushing', title: 'Rushing', content };
