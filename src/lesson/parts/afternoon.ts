import { ALWAYS } from '../../report/cautions.js';
import { takeAlong } from '../controls.js';
import { element } from '../dom.js';
import type { Part, Stage } from '../part.js';
import { quiz } from '../quiz.js';
import { WAYS_ANSWERS } from '../tasks/answers.js';
import { tools } from '../tools.js';
import { Bench, strategySetting } from './afternoon/bench.js';

function content(stage: Stage): readonly Node[] {
  return [
    element(
      'p',
      {},
      'You are at the instrument for one afternoon. A sharp tip feels its way over the sample, line by line, and draws an image. It grows blunt with every image, it picks up dirt, it can break; and nobody tells you when. You look at the images, and decide.',
    ),
    element(
      'p',
      {},
      'Press Play. Each time the tip looks doubtful you are asked what to do: go on, check it, clean it or replace it. If you have doubts of your own, say so, and time stops before the next image. At the end you see what was hidden, and what the rules would have made of the very same luck.',
    ),
    element(
      'p',
      { class: 'note' },
      `Cleaning and replacing a tip bring hands near the head of the instrument; its usual cautions stand at the end of this page. ${ALWAYS}`,
    ),
    ...new Bench(stage).content,
    takeAlong(
      'A doubtful tip is cheap when you act on the first bad image, and dear when a row of images has to be taken again.',
      'Before you go on with it, ask what the next images are worth, and what a change of tip really takes.',
    ),
    quiz(stage, {
      task: 'waysQuestion',
      question:
        'Many afternoons like this one, all doubts decided in one and the same way: which way gives the most good images in an hour?',
      answers: WAYS_ANSWERS,
      asked: () => ({ changes: [], seed: stage.seed, strategy: stage.state.choice(strategySetting(stage.facts)) }),
    }),
    tools(stage, 'afternoon', () => []),
  ];
}

export const oneAfternoon: Part = { id: 'afternoon', title: 'One afternoon', content };
