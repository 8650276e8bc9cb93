import { useEffect, useLayoutEffect, useReducer, useRef, useState } from 'preact/hooks';
import { offeredAt } from '../../session/choices.js';
import { scanAt } from '../../session/moment.js';
import type { StageProps } from '../../stage.js';
import { Button, type Held, Menu, StatusLine, useChoice } from '../controls.js';
import { Again } from './again.js';
import { Afterwards } from './afterwards.js';
import { Bench, SPEED, whose } from './bench.js';
import { ScanView } from './scan.js';
import { Tally } from './tally.js';
import { choiceText, factsAt, notesAt, questionText } from './words.js';

interface BoardProps extends StageProps {
  readonly strategy: Held<string>;
}

/** A session to be played: its controls, the image, what is asked and known, where the time went, and at the end the truth. */
export function Board({ stage, strategy: [strategy, putStrategy] }: BoardProps) {
  const [, draw] = useReducer((count: number) => count + 1, 0);
  const [bench] = useState(
    () =>
      new Bench(stage, () => {
        draw(undefined);
      }),
  );
  useEffect(
    () => () => {
      bench.end();
    },
    [bench],
  );
  const speed = useChoice(stage.state, SPEED);
  const [again, lookAgain] = useState<number | null>(null);
  const { game, isRunning } = bench;
  const { playing, asked, time, afterwards } = game;
  useEffect(() => {
    lookAgain(null);
  }, [afterwards]);
  const scans = afterwards === null ? [] : playing.steps.flatMap(({ scan }) => scan ?? []);
  const chosen = scans.at(again ?? -1) ?? null;
  const places = usePlaces(isRunning, asked?.point ?? null);
  return (
    <>
      <div class="controls">
        <Menu
          setting={whose(stage.facts)}
          name="Workflow"
          held={[
            strategy,
            (name) => {
              putStrategy(name);
              bench.startOver();
            },
          ]}
        />
        <Menu setting={SPEED} name="Speed" held={speed} />
      </div>
      <div class="console" ref={places.holder}>
        <div class="transport">
          <div class="row" aria-busy={game.isAwaited}>
            <button ref={places.play} type="button" class="main" onClick={bench.toggle}>
              {isRunning ? 'Pause' : 'Play'}
            </button>
            <Button onPress={bench.step}>Next step</Button>
            <Button onPress={bench.inspect}>Inspect tip</Button>
          </div>
          <StatusLine>{bench.said}</StatusLine>
        </div>
        <ScanView
          {...{ stage, replication: bench.number }}
          {...(chosen === null
            ? { ...(scanAt(playing, time) ?? { scan: null, done: 0 }), isTruth: false }
            : { scan: chosen, done: 1, isTruth: true })}
        />
        <div class="slot">
          {asked === null ? null : (
            <div class="asked" role="group" aria-labelledby="session-asked">
              <p id="session-asked" tabIndex={-1} ref={places.asking}>
                {questionText(asked)}
              </p>
              <div class="row">
                {offeredAt(asked, playing.offered).map((choice) => (
                  <Button
                    onPress={() => {
                      bench.decide(choice);
                      places.play.current?.focus({ preventScroll: true });
                    }}
                  >
                    {choiceText(choice, asked)}
                  </Button>
                ))}
              </div>
            </div>
          )}
        </div>
        <div class="panel">
          <dl class="tiles">
            {factsAt(game).map(([name, value]) => (
              <div>
                <dt>{name}</dt>
                <dd>{value}</dd>
              </div>
            ))}
          </dl>
          {chosen === null ? null : <Again {...{ scans, chosen, onChoose: lookAgain }} />}
          {afterwards === null ? (
            <ol class="notebook" aria-label="Notebook">
              {notesAt(game).map((note) => (
                <li>{note}</li>
              ))}
            </ol>
          ) : null}
        </div>
      </div>
      <div class="row">
        <Button onPress={bench.startOver}>Start over</Button>
        <Button onPress={bench.another}>Another session</Button>
      </div>
      <Tally game={game} />
      {afterwards === null ? null : <Afterwards afterwards={afterwards} startsAt={playing.startsAt} />}
    </>
  );
}

/** Where eyes and keyboard are led: to the whole console as time begins to run, and to a question as it is asked. */
function usePlaces(isRunning: boolean, point: number | null) {
  const holder = useRef<HTMLDivElement>(null);
  const play = useRef<HTMLButtonElement>(null);
  const asking = useRef<HTMLParagraphElement>(null);
  useLayoutEffect(() => {
    const place = holder.current;
    if (!isRunning || place === null) return;
    const { top } = place.getBoundingClientRect();
    const bottoms = [...place.querySelectorAll('.slot,.scan')].map((each) => each.getBoundingClientRect().bottom);
    if (top < 0 || Math.max(...bottoms) > innerHeight) place.scrollIntoView({ block: 'start' });
  }, [isRunning]);
  useLayoutEffect(() => {
    // The keyboard comes to a question if it is in this part of the page.
    if (point !== null && play.current?.closest('section')?.contains(document.activeElement) === true)
      asking.current?.focus({ preventScroll: true });
  }, [point]);
  return { holder, play, asking };
}
