import { INSTRUMENT_TIME, OPERATOR_TIME } from '../../analysis/words.js';
import { Timelines } from '../../page/parts/timelines.js';
import type { Estimate } from '../../statistics/estimate.js';
import { durationText } from '../../wording/numbers.js';
import type { Change } from '../change.js';
import type { StrategyFacts } from '../facts.js';
import type { Part, StageProps } from '../stage.js';
import type { NumberSetting } from '../state.js';
import { PREPARATION_ANSWERS } from '../tasks/answers.js';
import type { SwapOrHop as Answer } from '../tasks/swap-or-hop.js';
import { Button, KeyPoint, Slider, StatusLine, useNumber } from './controls.js';
import { Figure } from './figure.js';
import { Quiz } from './quiz.js';
import { Tools } from './tools.js';
import { useAnswer } from './use-answer.js';

const FACTOR = { start: 1, least: 0.2, most: 4, step: 0.2 };
const PREPARATION: NumberSetting = { ...FACTOR, key: 'ways-preparation' };
const BREAKAGE: NumberSetting = { ...FACTOR, key: 'ways-breakage' };
const FOULING: NumberSetting = { ...FACTOR, key: 'ways-fouling' };
const CAMPAIGN: NumberSetting = { key: 'ways-campaign', start: 1, least: 1, most: 100_000, step: 1 };

const often = (factor: number) => (factor === 1 ? 'as in the scenario' : `${factor.toFixed(1)} × as often`);

/** What one campaign and many say of the two workflows. */
function said({ spent, many, done }: Answer, campaign: number): string {
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

function Content({ stage }: StageProps) {
  const [swap, hop] = (['swap', 'hop'] as const).map((name) =>
    stage.facts.strategies.find(({ workflow }) => workflow === name),
  );
  if (swap === undefined || hop === undefined)
    return (
      <p>
        This scenario has only one of the two workflows, so there is nothing to compare. The scenario that comes with
        this program has both.
      </p>
    );
  return <Both {...{ stage, swap, hop }} />;
}

interface BothProps extends StageProps {
  readonly swap: StrategyFacts;
  readonly hop: StrategyFacts;
}

function Both({ stage, swap, hop }: BothProps) {
  const { state, engine, seed } = stage;
  const preparation = useNumber(state, PREPARATION);
  const breakage = useNumber(state, BREAKAGE);
  const fouling = useNumber(state, FOULING);
  const [campaign, putCampaign] = useNumber(state, CAMPAIGN);
  const changes: readonly Change[] = [
    { strategy: hop.name, scale: 'preparation', factor: preparation[0] },
    ...[swap.name, hop.name].flatMap((strategy): readonly Change[] => [
      { strategy, scale: 'breakage', factor: breakage[0] },
      { strategy, scale: 'fouling', factor: fouling[0] },
    ]),
  ];
  const question = { changes, seed, swap: swap.name, hop: hop.name, replication: campaign };
  const { latest, whole, fault } = useAnswer(engine, 'swapOrHop', question);
  const preparing = hop.preparing ?? { time: 0, at: 'bench' };
  const place = PLACES[preparing.at];
  return (
    <>
      <p>
        When a tip is spoiled, there are two ways on. Swap: take the probe out by hand and put a new one in. Array-hop:
        the sample rides on a small lever above a chip of many tips, and steps to the next one; but then each specimen
        must first be prepared on its lever. {place.intro}
      </p>
      <div class="controls">
        <Slider
          setting={PREPARATION}
          name="Preparation for array-hop"
          said={(factor) => `about ${durationText(preparing.time * factor)} a try`}
          held={preparation}
        />
        <Slider setting={BREAKAGE} name="Tips break" said={often} held={breakage} />
        <Slider setting={FOULING} name="Tips are contaminated" said={often} held={fouling} />
      </div>
      <div class="row">
        <Button
          onPress={() => {
            putCampaign(campaign + 1);
          }}
        >
          Another campaign
        </Button>
      </div>
      <Figure
        caption="Above in each row, what the time went to; below, the state of the tip, parted at every change of tip. Both rows have common random numbers."
        far={latest?.answer ?? null}
        data={null}
      >
        {latest === null ? null : (
          <Timelines
            timelines={latest.answer.timelines}
            label="What the time went to in both workflows, with the state of the tip below. The text beside says how long each took."
          />
        )}
      </Figure>
      <StatusLine>
        {fault === null
          ? whole && said(whole.answer, whole.question.replication)
          : `Nobody should measure like this: ${fault}`}
      </StatusLine>
      <KeyPoint>{place.key}</KeyPoint>
      <Quiz
        stage={stage}
        task="preparationQuestion"
        question={place.question}
        answers={PREPARATION_ANSWERS}
        asked={{ changes: [], seed, strategy: hop.name }}
      />
      <Tools stage={stage} id="swap-or-hop" changes={changes} />
    </>
  );
}

export const swapOrHop: Part = { id: 'ways', title: 'Swap or hop', Content };
