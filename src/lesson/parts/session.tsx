import { ALWAYS } from '../../report/cautions.js';
import type { Part, StageProps } from '../stage.js';
import { WAYS_ANSWERS } from '../tasks/answers.js';
import { KeyPoint, useChoice } from './controls.js';
import { Quiz } from './quiz.js';
import { whose } from './session/bench.js';
import { Board } from './session/board.js';
import { Tools } from './tools.js';

function Content({ stage }: StageProps) {
  const strategy = useChoice(stage.state, whose(stage.facts));
  return (
    <>
      <p>
        You have booked the instrument for one session. A sharp tip follows the surface of the sample line by line and
        makes an image. It wears with every image, it can pick up contamination, chip or break, and nothing tells you
        when. You look at the images and decide.
      </p>
      <p>
        Press Play. Each time the tip looks doubtful you are asked what to do: go on, check it, clean it or replace it.
        With “Inspect tip” you stop before the next image yourself. The session ends with the booked time, or once every
        image is done. Then you see the true tip history, and what the rules would have come to with common random
        numbers.
      </p>
      <p class="note">
        Cleaning and replacing a tip bring hands near the head of the instrument; its usual cautions stand at the end of
        this page. {ALWAYS}
      </p>
      <Board stage={stage} strategy={strategy} />
      <KeyPoint>
        A doubtful tip is cheap when you act on the first bad image, and dear when a row of images has to be taken
        again. Before you go on with it, ask what the next images are worth, and how long a change of tip really takes.
      </KeyPoint>
      <Quiz
        stage={stage}
        task="waysQuestion"
        question="Many sessions like this one, every doubtful tip decided in the same way: which way gives the most good images per hour?"
        answers={WAYS_ANSWERS}
        asked={{ changes: [], seed: stage.seed, strategy: strategy[0] }}
      />
      <Tools stage={stage} id="session" changes={[]} />
    </>
  );
}

export const oneSession: Part = { id: 'session', title: 'One session', Content };
