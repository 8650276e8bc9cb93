import { fixed } from '../../report/format.js';
import { atRest, menu, slider, statusLine, keyPoint } from '../controls.js';
import { element } from '../dom.js';
import { dataTable, Figure } from '../figure.js';
import type { Part, Stage } from '../part.js';
import { quiz } from '../quiz.js';
import type { NumberSetting } from '../state.js';
import { AGE_ANSWERS } from '../tasks/answers.js';
import type { AtAge, WhenToHop } from '../tasks/when-to-hop.js';
import { tools } from '../tools.js';
import { imagesText } from '../words.js';

const GRID = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30, 40];

const minutes = (seconds: number) => `${fixed(seconds / 60, 1)} min`;

/** The person's choice beside the best of those tried, and what makes the difference. */
function said({ points, refused }: WhenToHop, chosen: number): string {
  const impossible = refused.find(({ at }) => at === chosen);
  if (impossible !== undefined) return `Nobody should measure like this: ${impossible.message}`;
  const mine = points.find(({ age }) => age === chosen);
  const best = points.reduce((least, each) => (each.perGood.value < least.perGood.value ? each : least), points[0]);
  if (mine === undefined) return '';
  const here = `Where each tip is replaced after ${imagesText(chosen)}, a good image takes ${minutes(mine.perGood.value)}.`;
  if (best.age === chosen) return `${here} Of the ages tried none is better: ${balance(best)}`;
  return `${here} The best of the ages tried is ${imagesText(best.age)}, with ${minutes(best.perGood.value)}: ${why(mine, best)}`;
}

function balance({ lost, changing }: AtAge): string {
  return `here the ${minutes(lost)} of lost scans and the ${minutes(changing)} of changing tips together are least.`;
}

function why(mine: AtAge, best: AtAge): string {
  const lost = mine.lost - best.lost;
  const changing = mine.changing - best.changing;
  return lost > changing
    ? `your tips are kept too long, and ${minutes(lost)} more of each good image’s time goes into scans that a spoiled tip has lost.`
    : `your tips are replaced too soon, and ${minutes(changing)} more of each good image’s time goes into changing them.`;
}

function table({ points, done }: WhenToHop): HTMLElement {
  return dataTable(
    `Means over at least ${done} campaigns, for one good image`,
    ['A tip is replaced after', 'Time', 'Scans lost', 'Changing tips'],
    points.map(({ age, perGood, lost, changing }) => [
      imagesText(age),
      ...[perGood.value, lost, changing].map(minutes),
    ]),
  );
}

function content(stage: Stage): readonly Node[] {
  const { facts, state, engine, seed } = stage;
  const names = facts.strategies.map(({ name }) => name);
  const start = facts.strategies.find(({ workflow }) => workflow === 'hop') ?? facts.strategies[0];
  const WHO = { key: 'when-strategy', start: start.name, options: names };
  const most = Math.max(2, Math.min(40, start.images));
  const AGE: NumberSetting = {
    key: 'when-after',
    start: Math.min(most, start.afterImages ?? 10),
    least: 1,
    most,
    step: 1,
  };
  const grid = [...new Set([...GRID.filter((age) => age < most), most])];
  const figure = new Figure(
    'When to replace a tip',
    'Replaced early, much time goes into changing; replaced late, into scans that a spoiled tip has lost. The best lies where both together are least; the dashed vertical line is your choice.',
  );
  const line = statusLine();
  let drop: (() => void) | null = null;
  const ask = () => {
    drop?.();
    const chosen = state.number(AGE);
    const ages = [...new Set([...grid, chosen])].sort((a, b) => a - b);
    let last: WhenToHop | null = null;
    const question = { changes: [], seed, strategy: state.choice(WHO), ages, chosen, width: figure.width };
    drop = engine.ask('whenToHop', question, {
      onAnswer: (answer) => {
        last = answer;
        figure.show(answer.svg, answer.done / answer.of, table(answer));
      },
      onEnd: () => {
        if (last !== null) line.textContent = said(last, chosen);
      },
      onFault: (message) => {
        line.textContent = message;
      },
    });
  };
  const changed = atRest(ask);
  changed();
  return [
    element(
      'p',
      {},
      'Why wait until a tip is spoiled? You may replace it while it is still good, after a fixed number of images. Too soon wastes good tips and the time of changing them; too late wastes scans.',
    ),
    element(
      'div',
      { class: 'controls' },
      ...(names.length > 1 ? [menu(state, WHO, 'Workflow', changed)] : []),
      slider(state, AGE, 'A tip is replaced after', imagesText, changed),
    ),
    figure.node,
    line,
    keyPoint(
      element(
        'p',
        {},
        'Replacing a tip before it fails pays where old tips are likelier to fail than new ones, and a change is quick. Where a change is slow, or tips fail at any age alike, wait for the first bad image and then act at once.',
      ),
    ),
    quiz(stage, {
      task: 'ageQuestion',
      question:
        'Tips now break three times as often. After how many images is it best to replace them, compared with before?',
      answers: AGE_ANSWERS,
      asked: () => ({ changes: [], seed, strategy: state.choice(WHO), ages: grid }),
    }),
    tools(stage, 'when-to-hop', () => [
      { strategy: state.choice(WHO), path: 'rules.after', value: imagesText(state.number(AGE)) },
    ]),
  ];
}

export const whenToHop: Part = { id: 'when', title: 'When to replace a tip', content };
