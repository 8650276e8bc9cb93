import { waitChanges } from '../change.js';
import { fixed, numberText, SHARE } from '../../report/format.js';
import { atRest, keyPoint, menu, slider, statusLine } from '../controls.js';
import { element } from '../dom.js';
import { dataTable, Figure } from '../figure.js';
import { emptyCanvas, paint } from '../paint.js';
import type { Part, Stage } from '../part.js';
import { quiz } from '../quiz.js';
import { optimumText } from '../rushing-words.js';
import type { NumberSetting } from '../state.js';
import { WAIT_ANSWERS } from '../tasks/answers.js';
import type { DriftPicture } from '../tasks/drift-picture.js';
import type { AtWait, Waiting } from '../tasks/waiting.js';
import { tools } from '../tools.js';

const WAIT: NumberSetting = { key: 'waiting-wait', start: 3, least: 0, most: 30, step: 1 };
/** Tried beside the person's own choice. */
const GRID = [0, 1, 2, 4, 6, 8, 10, 12, 15, 20, 25, 30];
/** Points along a side of the pictures. */
const POINTS = 96;

const minutes = (seconds: number) => `${fixed(seconds / 60, 1)} min`;

function waitText(wait: number): string {
  return wait === 0 ? 'no wait' : `${wait} min`;
}

/** The person's choice beside the best of those tried, and what makes the difference. */
function comparison({ points, refused }: Waiting, chosen: number): string {
  const impossible = refused.find(({ at }) => at === chosen);
  if (impossible !== undefined) return `Nobody should measure like this: ${impossible.message}`;
  const mine = points.find(({ wait }) => wait === chosen);
  if (mine === undefined) return '';
  const best = points.reduce((least, each) => (each.perGood.value < least.perGood.value ? each : least));
  const here = `With ${waitText(chosen)} after each change a good image takes ${minutes(mine.perGood.value)}, of which ${minutes(mine.settling)} is settling and warming up and ${minutes(mine.drift)} scans lost to drift, at a yield of ${numberText(mine.yield.value, SHARE)}.`;
  if (best === mine) return `${here} Of the waits tried none is better.`;
  return `${here} The best of those tried is ${waitText(best.wait)}, with ${minutes(best.perGood.value)}: ${why(mine, best)}`;
}

function why(mine: AtWait, best: AtWait): string {
  return best.wait < mine.wait
    ? 'you wait for what the images no longer need.'
    : 'what you do not wait for is scanned again, or kept although it is bad.';
}

function table({ points, done }: Waiting): HTMLElement {
  return dataTable(
    `Means over ${done} campaigns, for one good image`,
    ['Settling after each change', 'Time', 'Settling and warming up', 'Scans lost to drift', 'Yield'],
    points.map(({ wait, perGood, settling, drift, yield: share }) => [
      waitText(wait),
      ...[perGood.value, settling, drift].map(minutes),
      numberText(share.value, SHARE),
    ]),
  );
}

/** The first image after a change as drift distorts it, beside the surface as it is. */
function imagePair(): { readonly node: HTMLElement; readonly show: (picture: DriftPicture, wait: number) => void } {
  const [shown, real] = [emptyCanvas(POINTS), emptyCanvas(POINTS)];
  const caption = statusLine();
  const node = element(
    'figure',
    { class: 'scan' },
    element(
      'div',
      { class: 'pair' },
      element('div', {}, shown, element('p', {}, 'As drift distorts it')),
      element('div', {}, real, element('p', {}, 'As it really is')),
    ),
    element('figcaption', {}, caption),
  );
  return {
    node,
    show: (picture, wait) => {
      const { rate, displacement, tolerance, quality, side, columns } = picture;
      paint(shown, picture, picture.shown, 0, columns);
      paint(real, picture, picture.real, 0, columns);
      const bears =
        tolerance === null
          ? 'The scenario says nothing of how much the image bears.'
          : `The image bears ${numberText(tolerance)} nm, so that ${numberText(quality, SHARE)} of its quality is left.`;
      const text = `Scanned from the top after ${waitText(wait)} of settling, at a typical drift of ${rate.toFixed(3)} nm/s when it begins: by its last line the image is displaced by ${displacement.toFixed(1)} nm. ${bears}`;
      caption.textContent = `${text} Shown is the beginning of it, ${numberText(side)} nm wide, sheared along its lines and stretched from line to line.`;
      shown.setAttribute('aria-label', `The surface as an image shows it that drifts by ${displacement.toFixed(1)} nm`);
      real.setAttribute('aria-label', 'The same piece of the surface as it really is');
    },
  };
}

function content(stage: Stage): readonly Node[] {
  const { engine, facts, state, seed } = stage;
  const names = facts.strategies.map(({ name }) => name);
  const WHO = { key: 'waiting-strategy', start: names[0], options: names };
  const figure = new Figure(
    'Wait or scan?',
    'A short wait saves time until drift spoils the images that follow; each of them is scanned again, or kept though it is bad. The dashed vertical line is your choice.',
  );
  const image = imagePair();
  const costs = element('p', { class: 'costs' });
  const said = statusLine();
  const lesson = element('p', {}, 'It comes once every wait has been computed.');
  let drop: readonly (() => void)[] = [];
  const ask = () => {
    for (const each of drop) each();
    const [strategy, chosen] = [state.choice(WHO), state.number(WAIT)];
    costs.textContent = facts.strategies.find(({ name }) => name === strategy)?.haste.wait ?? '';
    const question = { changes: [], seed, strategy };
    const waits = [...new Set([...GRID, chosen])].sort((a, b) => a - b);
    let last: Waiting | null = null;
    const onFault = (message: string) => {
      said.textContent = message;
    };
    drop = [
      engine.ask(
        'driftPicture',
        { ...question, wait: chosen },
        {
          onAnswer: (picture) => {
            image.show(picture, chosen);
          },
          onFault,
        },
      ),
      engine.ask(
        'waiting',
        { ...question, waits, chosen, width: figure.width },
        {
          onAnswer: (answer) => {
            last = answer;
            figure.show(answer.svg, answer.done / answer.of, table(answer));
          },
          onEnd: () => {
            if (last === null) return;
            said.textContent = comparison(last, chosen);
            const tried = last.points.map(({ wait, ...rest }) => ({ at: waitText(wait), ...rest }));
            lesson.textContent = `${optimumText(tried)} What drift spoils has drifted: no tip is to blame, and scanning it again at once may be as good as waiting, since drift goes on dying out meanwhile.`;
          },
          onFault,
        },
      ),
    ];
  };
  const changed = atRest(ask);
  changed();
  return [
    costs,
    element(
      'p',
      {},
      'Hands at the instrument, and moves of the stage, start a drift that dies out. Scan at once, and the image is distorted; wait, and the time is gone. How long is it worth waiting after each change?',
    ),
    element(
      'div',
      { class: 'controls' },
      ...(names.length > 1 ? [menu(state, WHO, 'Workflow', changed)] : []),
      slider(state, WAIT, 'Settling after each change', waitText, changed),
    ),
    image.node,
    figure.node,
    said,
    keyPoint(lesson),
    quiz(stage, {
      task: 'waitQuestion',
      question: 'Drift now dies out three times as slowly. How long is it best to wait, compared with before?',
      answers: WAIT_ANSWERS,
      asked: () => ({ changes: [], seed, strategy: state.choice(WHO), waits: GRID }),
    }),
    tools(stage, 'waiting', () => {
      const strategy = state.choice(WHO);
      const workflow = facts.strategies.find(({ name }) => name === strategy)?.workflow ?? 'swap';
      return waitChanges(strategy, workflow, state.number(WAIT));
    }),
  ];
}

export const waiting: Part = { id: 'waiting', title: 'Wait or scan?', content };
