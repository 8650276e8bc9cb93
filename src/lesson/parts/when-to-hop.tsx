import { curveOf } from '../../page/parts/curves.js';
import { fixed } from '../../wording/numbers.js';
import { counted } from '../../wording/phrases.js';
import { bestOf } from '../best.js';
import type { Part, StageProps } from '../stage.js';
import type { NumberSetting } from '../state.js';
import { AGE_ANSWERS } from '../tasks/answers.js';
import type { AtAge } from '../tasks/when-to-hop.js';
import { KeyPoint, Menu, Slider, strategySetting, useChoice, useNumber } from './controls.js';
import { type FigureData, tableOf } from './figure.js';
import { Quiz } from './quiz.js';
import { Tools } from './tools.js';
import { useAnswer } from './use-answer.js';
import { Varied } from './varied.js';

const GRID = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30, 40];

const images = (count: number) => counted(count, 'image');
const minutes = (seconds: number) => `${fixed(seconds / 60, 1)} min`;

/** The person's choice beside the best of those tried, and what makes the difference. */
function comparison(mine: AtAge, points: readonly AtAge[]): string {
  const best = bestOf(points);
  const here = `Where each tip is replaced after ${images(mine.at)}, a good image takes ${minutes(mine.perGood.value)}.`;
  if (best === mine) return `${here} Of the ages tried none is better: ${balance(best)}`;
  return `${here} The best of the ages tried is ${images(best.at)}, with ${minutes(best.perGood.value)}: ${why(mine, best)}`;
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

function curvesOf(points: readonly AtAge[]) {
  return [
    curveOf('Time for a good image (minutes)', points, ({ perGood }) => perGood, 60),
    curveOf('of it: scans lost to spoiled tips (minutes)', points, ({ lost }) => lost, 60),
    curveOf('of it: changing tips and finding the place again (minutes)', points, ({ changing }) => changing, 60),
  ];
}

function dataOf(points: readonly AtAge[], campaigns: number): FigureData {
  const table = tableOf(
    ['A tip is replaced after', 'Time', 'Scans lost', 'Changing tips'],
    points.map((point) => [images(point.at), ...[point.perGood.value, point.lost, point.changing].map(minutes)]),
  );
  return [`Means over at least ${campaigns} campaigns, for one good image`, table];
}

function Content({ stage }: StageProps) {
  const { facts, state, engine, seed } = stage;
  const start = facts.strategies.find(({ workflow }) => workflow === 'hop') ?? facts.strategies[0];
  const strategies = strategySetting(facts, 'when-strategy', start.name);
  const most = Math.max(2, Math.min(40, start.images));
  const setting: NumberSetting = {
    ...{ key: 'when-after', start: Math.min(most, start.afterImages ?? 10) },
    ...{ least: 1, most, step: 1 },
  };
  const who = useChoice(state, strategies);
  const held = useNumber(state, setting);
  const [[strategy], [chosen]] = [who, held];
  const ages = [...GRID.filter((each) => each < most), most];
  const question = { changes: [], seed, strategy, ages };
  const asked = useAnswer(engine, 'whenToHop', { ...question, chosen });
  return (
    <>
      <p>
        Why wait until a tip is spoiled? You may replace it while it is still good, after a fixed number of images. Too
        soon wastes good tips and the time of changing them; too late wastes scans.
      </p>
      <div class="controls">
        <Menu setting={strategies} name="Workflow" held={who} />
        <Slider setting={setting} name="A tip is replaced after" said={images} held={held} />
      </div>
      <Varied
        {...{ asked, setting, chosen, comparison, curves: curvesOf, data: dataOf }}
        title="A tip is replaced after so many images"
        caption="Replaced early, much time goes into changing; replaced late, into scans that a spoiled tip has lost. The best lies where both together are least; the dashed vertical line is your choice."
      />
      <KeyPoint>
        Replacing a tip before it fails pays where old tips are likelier to fail than new ones, and a change is quick.
        Where a change is slow, or tips fail at any age alike, wait for the first bad image and then act at once.
      </KeyPoint>
      <Quiz
        stage={stage}
        task="ageQuestion"
        question="Tips now break three times as often. After how many images is it best to replace them, compared with before?"
        answers={AGE_ANSWERS}
        asked={question}
      />
      <Tools stage={stage} id="when-to-hop" changes={[{ strategy, path: 'rules.after', value: images(chosen) }]} />
    </>
  );
}

export const whenToHop: Part = { id: 'when', title: 'When to replace a tip', Content };
