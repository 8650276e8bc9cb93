import { curveOf } from '../../page/parts/curves.js';
import { fixed, numberText, SHARE } from '../../wording/numbers.js';
import { bestOf } from '../best.js';
import { waitChanges } from '../change.js';
import { optimumText } from '../rushing-words.js';
import type { Part, StageProps } from '../stage.js';
import type { NumberSetting } from '../state.js';
import { WAIT_ANSWERS } from '../tasks/answers.js';
import type { DriftPicture } from '../tasks/drift-picture.js';
import type { AtWait } from '../tasks/waiting.js';
import { KeyPoint, Menu, Slider, StatusLine, strategySetting, useChoice, useNumber } from './controls.js';
import { type FigureData, tableOf } from './figure.js';
import { Grey } from './grey.js';
import { Quiz } from './quiz.js';
import { Tools } from './tools.js';
import { type Asked, useAnswer } from './use-answer.js';
import { Varied } from './varied.js';

const WAIT: NumberSetting = { key: 'waiting-wait', start: 3, least: 0, most: 30, step: 1 };
/** Points along a side of the pictures. */
const POINTS = 96;

const minutes = (seconds: number) => `${fixed(seconds / 60, 1)} min`;

function waitText(wait: number): string {
  return wait === 0 ? 'no wait' : `${wait} min`;
}

/** The person's choice beside the best of those tried, and what makes the difference. */
function comparison(mine: AtWait, points: readonly AtWait[]): string {
  const best = bestOf(points);
  const here = `With ${waitText(mine.at)} after each change a good image takes ${minutes(mine.perGood.value)}, of which ${minutes(mine.settling)} is settling and warming up and ${minutes(mine.drift)} scans lost to drift, at a yield of ${numberText(mine.yield.value, SHARE)}.`;
  if (best === mine) return `${here} Of the waits tried none is better.`;
  return `${here} The best of those tried is ${waitText(best.at)}, with ${minutes(best.perGood.value)}: ${why(mine, best)}`;
}

function why(mine: AtWait, best: AtWait): string {
  return best.at < mine.at
    ? 'you wait for what the images no longer need.'
    : 'what you do not wait for is scanned again, or kept although it is bad.';
}

function curvesOf(points: readonly AtWait[]) {
  return [
    curveOf('Instrument time for a good image (minutes)', points, ({ perGood }) => perGood, 60),
    curveOf('of it: settling and warming up (minutes)', points, ({ settling }) => settling, 60),
    curveOf('of it: scans lost to drift (minutes)', points, ({ drift }) => drift, 60),
    curveOf('Yield (%)', points, (point) => point.yield, 0.01),
  ];
}

function dataOf(points: readonly AtWait[], campaigns: number): FigureData {
  const table = tableOf(
    ['Settling after each change', 'Time', 'Settling and warming up', 'Scans lost to drift', 'Yield'],
    points.map((point) => [
      waitText(point.at),
      ...[point.perGood.value, point.settling, point.drift].map(minutes),
      numberText(point.yield.value, SHARE),
    ]),
  );
  return [`Means over ${campaigns} campaigns, for one good image`, table];
}

/** What the image bears, and how far it is displaced. */
function driftText({ rate, displacement, tolerance, quality, side }: DriftPicture, after: number): string {
  const bears =
    tolerance === null
      ? 'The scenario says nothing of how much the image bears.'
      : `The image bears ${numberText(tolerance)} nm, so that ${numberText(quality, SHARE)} of its quality is left.`;
  const text = `Scanned from the top after ${waitText(after)} of settling, at a typical drift of ${rate.toFixed(3)} nm/s when it begins: by its last line the image is displaced by ${displacement.toFixed(1)} nm. ${bears}`;
  return `${text} Shown is the beginning of it, ${numberText(side)} nm wide, sheared along its lines and stretched from line to line.`;
}

/** The first image after a change as drift distorts it, beside the surface as it is. */
function ImagePair({ asked: { latest, fault } }: { readonly asked: Asked<'driftPicture'> }) {
  const [picture, label] =
    latest === null
      ? [null, 'No image yet']
      : [latest.answer, `The surface as an image shows it that drifts by ${latest.answer.displacement.toFixed(1)} nm`];
  return (
    <figure class="scan">
      <div class="pair">
        <div>
          <Grey side={POINTS} heights={picture?.shown ?? null} label={label} />
          <p>As drift distorts it</p>
        </div>
        <div>
          <Grey
            side={POINTS}
            heights={picture?.real ?? null}
            label={picture === null ? label : 'The same piece of the surface as it really is'}
          />
          <p>As it really is</p>
        </div>
      </div>
      <figcaption>
        <StatusLine>{fault ?? (latest === null ? '' : driftText(latest.answer, latest.question.wait))}</StatusLine>
      </figcaption>
    </figure>
  );
}

function lessonOf({ whole }: Asked<'waiting'>): string {
  if (whole === null) return 'It comes once every wait has been computed.';
  const tried = whole.answer.points.map((point) => ({ ...point, at: waitText(point.at) }));
  return `${optimumText(tried)} What drift spoils has drifted: no tip is to blame, and scanning it again at once may be as good as waiting, since drift goes on dying out meanwhile.`;
}

function Content({ stage }: StageProps) {
  const { engine, facts, state, seed } = stage;
  const strategies = strategySetting(facts, 'waiting-strategy');
  const who = useChoice(state, strategies);
  const held = useNumber(state, WAIT);
  const [[strategy], [chosen]] = [who, held];
  const question = { changes: [], seed, strategy };
  const image = useAnswer(engine, 'driftPicture', { ...question, wait: chosen });
  const asked = useAnswer(engine, 'waiting', { ...question, chosen });
  const known = facts.strategies.find(({ name }) => name === strategy);
  return (
    <>
      <p>{known?.haste.wait}</p>
      <p>
        Hands at the instrument, and moves of the stage, start a drift that dies out. Scan at once, and the image is
        distorted; wait, and the time is gone. How long is it worth waiting after each change?
      </p>
      <div class="controls">
        <Menu setting={strategies} name="Workflow" held={who} />
        <Slider setting={WAIT} name="Settling after each change" said={waitText} held={held} />
      </div>
      <ImagePair asked={image} />
      <Varied
        {...{ asked, setting: WAIT, chosen, comparison, curves: curvesOf, data: dataOf }}
        title="Minutes of settling after each change"
        caption="A short wait saves time until drift spoils the images that follow; each of them is scanned again, or kept though it is bad. The dashed vertical line is your choice."
      />
      <KeyPoint>{lessonOf(asked)}</KeyPoint>
      <Quiz
        stage={stage}
        task="waitQuestion"
        question="Drift now dies out three times as slowly. How long is it best to wait, compared with before?"
        answers={WAIT_ANSWERS}
        asked={question}
      />
      <Tools stage={stage} id="waiting" changes={waitChanges(strategy, known?.workflow ?? 'swap', chosen)} />
    </>
  );
}

export const waiting: Part = { id: 'waiting', title: 'Wait or scan?', Content };
