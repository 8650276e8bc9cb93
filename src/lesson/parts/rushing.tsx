import { curveOf } from '../../page/parts/curves.js';
import { ALWAYS } from '../../report/cautions.js';
import { durationText, estimateText, fixed, PLAIN, SHARE, workScale } from '../../wording/numbers.js';
import { bestOf } from '../best.js';
import { paceChanges } from '../change.js';
import { paceText, rushingLesson } from '../rushing-words.js';
import type { Part, StageProps } from '../stage.js';
import type { NumberSetting } from '../state.js';
import { HANDS_ANSWERS } from '../tasks/answers.js';
import type { AtPace } from '../tasks/rushing.js';
import { KeyPoint, Menu, Slider, strategySetting, useChoice, useNumber } from './controls.js';
import { type FigureData, tableOf } from './figure.js';
import { Quiz } from './quiz.js';
import { Tools } from './tools.js';
import { type Asked, useAnswer } from './use-answer.js';
import { Varied } from './varied.js';

const PACE: NumberSetting = { key: 'rushing-scan', start: 1, least: 0.5, most: 3, step: 0.05 };
const HANDS: NumberSetting = { key: 'rushing-hands', start: 1, least: 0.5, most: 3, step: 0.1 };

const minutes = (seconds: number) => `${fixed(seconds / 60, 1)} min`;

/** What the person chose, beside the usual pace and the best. */
function comparison(mine: AtPace, points: readonly AtPace[]): string {
  const usual = points.find(({ at }) => at === 1);
  if (usual === undefined) return '';
  const best = bestOf(points);
  const good = points.reduce((most, each) => (each.yield.value > most.yield.value ? each : most));
  const difference = mine.time.value - usual.time.value;
  const beside =
    mine === usual
      ? ''
      : `On average that is ${durationText(Math.abs(difference))} ${difference > 0 ? 'more' : 'less'} than at the usual pace.`;
  return `At ${paceText(mine.at)} all images take ${durationText(mine.time.value)} of instrument time, with ${estimateText(mine.lost, PLAIN).value} scans lost and a yield of ${estimateText(mine.yield, SHARE).value}. ${beside} A good image takes ${minutes(mine.perGood.value)}; the least of those tried is ${minutes(best.perGood.value)}, at ${paceText(best.at)}, the best yield at ${paceText(good.at)}.`;
}

function curvesOf(points: readonly AtPace[]) {
  return [
    curveOf('Instrument time for a good image (minutes)', points, ({ perGood }) => perGood, 60),
    curveOf('Scans lost', points, ({ lost }) => lost, 1),
    curveOf('Yield (%)', points, (point) => point.yield, 0.01),
  ];
}

function dataOf(name: string, points: readonly AtPace[], campaigns: number): FigureData {
  const table = tableOf(
    [name, 'Time', 'Time for a good image', 'Scans lost', 'Yield', 'Tips'],
    points.map((point) => [
      String(point.at),
      estimateText(point.time, workScale(point.time.value)).value,
      estimateText(point.perGood, workScale(point.perGood.value)).value,
      estimateText(point.lost, PLAIN).value,
      estimateText(point.yield, SHARE).value,
      estimateText(point.tips, PLAIN).value,
    ]),
  );
  return [`Means over ${campaigns} campaigns`, table];
}

/** The two paces: what is varied while the other one stays as it is chosen. */
const SCANNING = {
  setting: PACE,
  name: 'Pace of scanning',
  title: 'Scanning faster',
  hurry: 'faster scanning',
} as const;
const QUICKER = { setting: HANDS, name: 'Pace of hands', title: 'Quicker hands', hurry: 'quicker hands' } as const;

interface CourseProps {
  readonly course: typeof SCANNING | typeof QUICKER;
  readonly chosen: number;
  readonly asked: Asked<'rushing'>;
}

/** What a pace does, with the other one held. */
function Course({ course: { setting, name, title }, chosen, asked }: CourseProps) {
  return (
    <>
      <h3>{title}</h3>
      <Varied
        {...{ asked, setting, chosen, comparison, title: `${name} (1 is usual)`, curves: curvesOf }}
        caption="Each point is the mean over the same campaigns, with its 95 % interval as a band; the dashed vertical line is your choice. It settles as more campaigns are run."
        data={(points, campaigns) => dataOf(name, points, campaigns)}
      />
    </>
  );
}

function lessonOf({ title, hurry }: CourseProps['course'], { whole }: Asked<'rushing'>): string {
  if (whole === null) return `${title}: it comes once every pace has been computed.`;
  return rushingLesson(whole.answer.points, hurry).join(' ');
}

function Content({ stage }: StageProps) {
  const { engine, facts, state, seed } = stage;
  const strategies = strategySetting(facts, 'rushing-strategy');
  const who = useChoice(state, strategies);
  const [strategy] = who;
  const scan = useNumber(state, PACE);
  const hands = useNumber(state, HANDS);
  const question = { changes: [], seed, strategy };
  const scanning = useAnswer(engine, 'rushing', { ...question, along: 'scan', chosen: scan[0], held: hands[0] });
  const quicker = useAnswer(engine, 'rushing', { ...question, along: 'hands', chosen: hands[0], held: scan[0] });
  const haste = facts.strategies.find(({ name }) => name === strategy)?.haste;
  return (
    <>
      <p>
        {haste?.scan} {haste?.hands}
      </p>
      <p>
        Scan faster, and each image takes less time; hurry by hand, and each manual step does. What that costs in return
        depends on the tip, the feedback loop and the hands. Here are a thousand campaigns for every pace.
      </p>
      <div class="controls">
        <Menu setting={strategies} name="Workflow" held={who} />
        <Slider setting={PACE} name={SCANNING.name} said={paceText} held={scan} />
        <Slider setting={HANDS} name={QUICKER.name} said={paceText} held={hands} />
      </div>
      <p class="note">Hands come near the laser and the high voltage of the scanner in each exchange. {ALWAYS}</p>
      <Course course={SCANNING} chosen={scan[0]} asked={scanning} />
      <Course course={QUICKER} chosen={hands[0]} asked={quicker} />
      <KeyPoint>
        {lessonOf(SCANNING, scanning)} {lessonOf(QUICKER, quicker)}
      </KeyPoint>
      <Quiz
        stage={stage}
        task="handsQuestion"
        question="Hands twice as fast, scanning at the usual pace: how does that change the time for all images on average?"
        answers={HANDS_ANSWERS}
        asked={question}
      />
      <Tools stage={stage} id="rushing" changes={paceChanges(strategy, scan[0], hands[0])} />
    </>
  );
}

export const rushing: Part = { id: 'rushing', title: 'Rushing', Content };
