import { CHOICES, type Choice, offeredAt } from '../../session/choices.js';
import { decisionsIn, DECISIONS_FORM, decisionsText } from '../../session/link.js';
import { menu, statusLine } from '../../controls.js';
import { button, element } from '../../dom.js';
import type { Facts } from '../../facts.js';
import type { Stage } from '../../part.js';
import type { Point } from '../../session/player.js';
import type { ChoiceSetting, NumberSetting } from '../../state.js';
import { imagesText } from '../../words.js';
import { FrameClock } from './clock.js';
import { Game } from './game.js';
import { Board } from './board.js';
import { choiceText, doubtText, tipName } from './words.js';

/** The session's number, as replications are numbered. */
export const NUMBER: NumberSetting = { key: 'session-number', start: 1, least: 1, most: 9999, step: 1 };
const DECISIONS = { key: 'session-decisions', form: DECISIONS_FORM };

/** Minutes of the session that pass in a second. */
const SPEEDS = ['1 minute a second', '5 minutes a second', '20 minutes a second'] as const;
const SPEED: ChoiceSetting = { key: 'session-speed', start: SPEEDS[1], options: SPEEDS };

/** Whose session it is. */
export function strategySetting({ strategies }: Facts): ChoiceSetting {
  const names = strategies.map(({ name }) => name);
  return { key: 'session-strategy', start: names[0], options: names };
}

/** The session as it is played: its controls, what is seen, and what is asked. */
export class Bench {
  readonly content: readonly Node[];
  private readonly game = new Game();
  private readonly board: Board;
  private readonly clock = new FrameClock((seconds) => {
    this.pass(seconds);
  });
  private readonly said = statusLine();
  private readonly play = button(
    'Play',
    () => {
      this.toggle();
    },
    { class: 'main' },
  );
  private readonly asking = element('p', { id: 'session-asked', tabindex: -1 });
  private readonly choices = CHOICES.map((choice) => ({
    choice,
    press: button('', () => {
      this.decide(choice);
    }),
  }));
  private readonly question: HTMLElement;
  /** Keeps the room of the question while nothing is asked. */
  private readonly slot: HTMLElement;
  /** Controls, image and question: all that is needed while it plays. */
  private readonly console: HTMLElement;
  /** Marked as busy while the engine is awaited. */
  private readonly buttons: HTMLElement;
  private drop: (() => void) | null = null;
  private wasOver = false;
  /** The point that is asked about on the screen. */
  private shown: number | null = null;
  /** Time goes on as soon as it can: it was stopped by a question, or Play was pressed before the engine had answered. */
  private goesOn = false;

  constructor(private readonly stage: Stage) {
    const { state, facts } = stage;
    this.board = new Board(stage, () => state.number(NUMBER));
    this.question = element(
      'div',
      { class: 'asked', role: 'group', 'aria-labelledby': 'session-asked', hidden: true },
      this.asking,
      element('div', { class: 'row' }, ...this.choices.map(({ press }) => press)),
    );
    const anew = () => {
      this.begin(state.number(NUMBER));
    };
    const step = button('Next step', () => {
      this.step();
    });
    const inspect = button('Inspect tip', () => {
      this.inspect();
    });
    const another = button('Another session', () => {
      this.begin((state.number(NUMBER) % NUMBER.most) + 1);
    });
    this.buttons = element('div', { class: 'row' }, this.play, step, inspect);
    this.slot = element('div', { class: 'slot' }, this.question);
    this.console = element(
      'div',
      { class: 'console' },
      element('div', { class: 'transport' }, this.buttons, this.said),
      this.board.screen,
      this.slot,
      this.board.panel,
    );
    this.content = [
      element(
        'div',
        { class: 'controls' },
        menu(state, strategySetting(facts), 'Workflow', anew),
        menu(state, SPEED, 'Speed', () => undefined),
      ),
      this.console,
      element('div', { class: 'row' }, button('Start over', anew), another),
      ...this.board.below,
    ];
    this.game.restart(decisionsIn(state.text(DECISIONS)));
    this.fetch(() => {
      this.game.moveToLastDecision();
      this.ready();
    });
  }

  /** The session has come from the engine, and may be played. */
  private ready(): void {
    this.say(`Session ${this.stage.state.number(NUMBER)}: press Play.`);
    if (this.goesOn) this.run();
    this.goesOn = false;
  }

  private begin(number: number): void {
    this.halt();
    this.goesOn = false;
    this.stage.state.put(NUMBER, number);
    this.stage.state.put(DECISIONS, '');
    this.game.restart([]);
    this.board.clear();
    this.fetch(() => {
      this.ready();
    });
  }

  private fetch(then: () => void): void {
    const { engine, seed, state, facts } = this.stage;
    this.drop?.();
    this.drop = engine.ask(
      'session',
      {
        ...{ changes: [], seed },
        strategy: state.choice(strategySetting(facts)),
        replication: state.number(NUMBER),
        decisions: this.game.decisions,
      },
      {
        onAnswer: (answer) => {
          this.game.take(answer);
          then();
          this.show();
        },
        onFault: (message) => {
          this.say(message);
        },
      },
    );
  }

  private toggle(): void {
    if (this.clock.isRunning) {
      this.halt();
      this.say(`Paused. ${this.board.now(this.game)}`);
    } else {
      this.run();
    }
  }

  /** Says why time cannot go on, where it cannot. */
  private isStill(): boolean {
    if (this.game.isOver) this.say('This session is over: start over, or play another session.');
    return this.game.isOver || this.game.isAwaited || this.game.asked !== null;
  }

  private run(): void {
    if (this.game.isAwaited) {
      this.goesOn = true;
      this.say('The instrument is being made ready; then it plays.');
    }
    if (this.isStill()) return;
    this.bringIntoView();
    this.clock.start();
    this.play.textContent = 'Pause';
    this.say('Playing.');
  }

  private halt(): void {
    this.clock.stop();
    this.play.textContent = 'Play';
  }

  private pass(seconds: number): void {
    // Another link was followed: the page has been built anew.
    if (!this.play.isConnected) {
      this.halt();
      return;
    }
    const speed = [60, 300, 1200][SPEED.options.indexOf(this.stage.state.choice(SPEED))];
    this.game.pass(seconds * speed);
    this.goesOn = this.game.asked !== null;
    this.show();
  }

  private step(): void {
    this.halt();
    if (this.isStill()) return;
    this.game.step();
    this.say(this.board.now(this.game));
    this.show();
  }

  private inspect(): void {
    if (this.isStill()) return;
    this.game.inspects = true;
    this.say('It pauses before the next image.');
    if (!this.clock.isRunning) this.run();
  }

  private decide(choice: Choice): void {
    const { asked } = this.game;
    const isAnother = this.game.decide(choice);
    this.stage.state.put(DECISIONS, decisionsText(this.game.decisions));
    this.play.focus({ preventScroll: true });
    const goOn = () => {
      if (asked !== null) this.say(`${choiceText(choice, asked)}.`);
      if (this.goesOn) this.run();
      // Where the answer is another question, time goes on after that one.
      this.goesOn &&= this.game.asked !== null;
      this.show();
    };
    if (isAnother) this.fetch(goOn);
    else goOn();
    this.show();
  }

  private show(): void {
    const { game } = this;
    this.buttons.ariaBusy = String(game.isAwaited);
    this.board.show(game);
    const isNew = game.asked !== null && game.asked.point !== this.shown;
    this.shown = game.asked?.point ?? null;
    this.question.hidden = game.asked === null;
    if (game.asked !== null) {
      this.halt();
      this.put(game.asked);
      if (isNew) this.callAttention();
    }
    if (game.isOver && !this.wasOver) {
      this.halt();
      this.say(`${this.board.ending(game)} The true tip history is below.`);
    }
    this.wasOver = game.isOver;
  }

  private put(asked: Point): void {
    this.asking.textContent = `${tipName(asked)}, ${imagesText(asked.images)}: ${doubtText(asked)}`;
    const offered = offeredAt(asked, this.game.playing.offered);
    for (const { choice, press } of this.choices) {
      press.hidden = !offered.includes(choice);
      press.textContent = choiceText(choice, asked);
    }
  }

  /** Scrolls as far as it takes to have controls, image and question on the screen together. */
  private bringIntoView(): void {
    const { top } = this.console.getBoundingClientRect();
    const bottoms = [this.slot, this.board.screen].map((each) => each.getBoundingClientRect().bottom);
    if (top < 0 || Math.max(...bottoms) > innerHeight) this.console.scrollIntoView({ block: 'start' });
  }

  /** The question is read out, and the keyboard comes to it if it is in this part of the page. */
  private callAttention(): void {
    this.say('Paused: your decision is needed.');
    const { activeElement } = document;
    if (activeElement !== null && this.play.closest('section')?.contains(activeElement) === true)
      this.asking.focus({ preventScroll: true });
  }

  private say(text: string): void {
    if (this.said.textContent !== text) this.said.textContent = text;
  }
}
