import { decisionsIn, DECISIONS_FORM, decisionsText } from '../../session/link.js';
import type { Choice } from '../../session/choices.js';
import type { Facts } from '../../facts.js';
import type { Stage } from '../../stage.js';
import type { ChoiceSetting, NumberSetting } from '../../state.js';
import { strategySetting } from '../controls.js';
import { FrameClock } from './clock.js';
import { Game } from './game.js';
import { choiceText, endingText, nowText } from './words.js';

/** The session's number, as replications are numbered. */
const NUMBER: NumberSetting = { key: 'session-number', start: 1, least: 1, most: 9999, step: 1 };
const DECISIONS = { key: 'session-decisions', form: DECISIONS_FORM };

/** Minutes of the session that pass in a second. */
const SPEEDS = ['1 minute a second', '5 minutes a second', '20 minutes a second'] as const;
export const SPEED: ChoiceSetting = { key: 'session-speed', start: SPEEDS[1], options: SPEEDS };

/** Whose session it is. */
export function whose(facts: Facts): ChoiceSetting {
  return strategySetting(facts, 'session-strategy');
}

/** The session as it is played: what may be done with it, and what is said of it. It draws nothing itself. */
export class Bench {
  readonly game = new Game();
  said = '';
  private readonly clock = new FrameClock((seconds) => {
    this.pass(seconds);
  });
  private drop: (() => void) | null = null;
  private wasOver = false;
  /** The point that was asked about when something changed last. */
  private shown: number | null = null;
  /** Time goes on as soon as it can: it was stopped by a question, or Play was pressed before the engine had answered. */
  private goesOn = false;

  /** @param changed is called after everything that may be seen */
  constructor(
    private readonly stage: Stage,
    private readonly changed: () => void,
  ) {
    this.game.restart(decisionsIn(stage.state.text(DECISIONS)));
    this.fetch(() => {
      this.game.moveToLastDecision();
      this.ready();
    });
  }

  /** The session's number. */
  get number(): number {
    return this.stage.state.number(NUMBER);
  }

  get isRunning(): boolean {
    return this.clock.isRunning;
  }

  /** The page is built anew. */
  end(): void {
    this.clock.stop();
    this.drop?.();
  }

  readonly startOver = (): void => {
    this.begin(this.number);
  };

  private begin(number: number): void {
    this.clock.stop();
    this.goesOn = false;
    this.stage.state.put(NUMBER, number);
    this.stage.state.put(DECISIONS, '');
    this.game.restart([]);
    this.fetch(() => {
      this.ready();
    });
    this.show();
  }

  readonly another = (): void => {
    this.begin((this.number % NUMBER.most) + 1);
  };

  readonly toggle = (): void => {
    if (this.isRunning) {
      this.clock.stop();
      this.said = `Paused. ${nowText(this.game)}`;
    } else {
      this.run();
    }
    this.show();
  };

  readonly step = (): void => {
    this.clock.stop();
    if (!this.isStill()) {
      this.game.step();
      this.said = nowText(this.game);
    }
    this.show();
  };

  readonly inspect = (): void => {
    if (!this.isStill()) {
      this.game.inspects = true;
      if (!this.isRunning) this.run();
      this.said = 'It pauses before the next image.';
    }
    this.show();
  };

  decide(choice: Choice): void {
    const { asked } = this.game;
    const isAnother = this.game.decide(choice);
    this.stage.state.put(DECISIONS, decisionsText(this.game.decisions));
    const goOn = () => {
      if (asked !== null) this.said = `${choiceText(choice, asked)}.`;
      if (this.goesOn) this.run();
      // Where the answer is another question, time goes on after that one.
      this.goesOn &&= this.game.asked !== null;
    };
    if (isAnother) this.fetch(goOn);
    else goOn();
    this.show();
  }

  /** The session has come from the engine, and may be played. */
  private ready(): void {
    this.said = `Session ${this.number}: press Play.`;
    if (this.goesOn) this.run();
    this.goesOn = false;
  }

  private fetch(then: () => void): void {
    const { engine, seed, state, facts } = this.stage;
    this.drop?.();
    this.drop = engine.ask(
      'session',
      {
        ...{ changes: [], seed },
        strategy: state.choice(whose(facts)),
        replication: this.number,
        decisions: this.game.decisions,
      },
      {
        onAnswer: (answer) => {
          this.game.take(answer);
          then();
          this.show();
        },
        onFault: (message) => {
          this.said = message;
          this.show();
        },
      },
    );
  }

  /** Says why time cannot go on, where it cannot. */
  private isStill(): boolean {
    if (this.game.isOver) this.said = 'This session is over: start over, or play another session.';
    return this.game.isOver || this.game.isAwaited || this.game.asked !== null;
  }

  private run(): void {
    if (this.game.isAwaited) {
      this.goesOn = true;
      this.said = 'The instrument is being made ready; then it plays.';
    }
    if (this.isStill()) return;
    this.clock.start();
    this.said = 'Playing.';
  }

  private pass(seconds: number): void {
    const speed = [60, 300, 1200][SPEED.options.indexOf(this.stage.state.choice(SPEED))];
    this.game.pass(seconds * speed);
    this.goesOn = this.game.asked !== null;
    this.show();
  }

  /** Time stops at a question and at the end, and what that is is said. */
  private show(): void {
    const { asked, isOver } = this.game;
    if (asked !== null || isOver) this.clock.stop();
    if (asked !== null && asked.point !== this.shown) this.said = 'Paused: your decision is needed.';
    if (isOver && !this.wasOver) this.said = `${endingText(this.game)} The true tip history is below.`;
    this.shown = asked?.point ?? null;
    this.wasOver = isOver;
    this.changed();
  }
}
