import { CHOICES } from '../../afternoon/choices.js';
import { decisionsIn, DECISIONS_FORM, decisionsText } from '../../afternoon/link.js';
import { menu, statusLine } from '../../controls.js';
import { button, element } from '../../dom.js';
import type { Facts } from '../../facts.js';
import type { Stage } from '../../part.js';
import type { ChoiceSetting, NumberSetting } from '../../state.js';
import { FrameClock } from './clock.js';
import { Game } from './game.js';
import { CHOICE_WORDS, doubtText, tipName } from './words.js';
import { Board } from './board.js';

/** The afternoon's number, as replications are numbered. */
export const NUMBER: NumberSetting = { key: 'afternoon-number', start: 1, least: 1, most: 9999, step: 1 };
const DECISIONS = { key: 'afternoon-decisions', form: DECISIONS_FORM };

/** Minutes of the afternoon that pass in a second. */
const SPEEDS = ['1 minute a second', '5 minutes a second', '20 minutes a second'] as const;
const SPEED: ChoiceSetting = { key: 'afternoon-speed', start: SPEEDS[1], options: SPEEDS };

/** Whose afternoon it is. */
export function strategySetting({ strategies }: Facts): ChoiceSetting {
  const names = strategies.map(({ name }) => name);
  return { key: 'afternoon-strategy', start: names[0], options: names };
}

/** The afternoon as it is played: its controls, what is seen, and what is asked. */
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
  private readonly asking = element('p', { id: 'afternoon-asked', tabindex: -1 });
  private readonly choices = CHOICES.map((choice) => ({
    choice,
    press: button(CHOICE_WORDS[choice], () => {
      this.decide(choice);
    }),
  }));
  private readonly question: HTMLElement;
  /** Marked as busy while the engine is awaited. */
  private readonly buttons: HTMLElement;
  private drop: (() => void) | null = null;
  private wasOver = false;
  /** Time goes on as soon as it can: it was stopped by a question, or Play was pressed before the engine had answered. */
  private goesOn = false;

  constructor(private readonly stage: Stage) {
    const { state, facts } = stage;
    this.board = new Board(stage, () => state.number(NUMBER));
    this.question = element(
      'div',
      { class: 'asked', role: 'group', 'aria-labelledby': 'afternoon-asked', hidden: true },
      this.asking,
      element('div', { class: 'row' }, ...this.choices.map(({ press }) => press)),
    );
    const anew = () => {
      this.begin(state.number(NUMBER));
    };
    const step = button('Next step', () => {
      this.step();
    });
    const doubt = button('I have doubts', () => {
      this.haveDoubts();
    });
    const another = button('Another afternoon', () => {
      this.begin((state.number(NUMBER) % NUMBER.most) + 1);
    });
    this.buttons = element('div', { class: 'row' }, this.play, step, doubt, button('Start over', anew), another);
    this.content = [
      element(
        'div',
        { class: 'controls' },
        menu(state, strategySetting(facts), 'Way of working', anew),
        menu(state, SPEED, 'Speed', () => undefined),
      ),
      this.buttons,
      this.said,
      this.question,
      ...this.board.content,
    ];
    this.game.restart(decisionsIn(state.text(DECISIONS)));
    this.fetch(() => {
      this.game.moveToLastDecision();
      this.ready();
    });
  }

  /** The afternoon has come from the engine, and may be played. */
  private ready(): void {
    this.say(`Afternoon ${this.stage.state.number(NUMBER)}: press Play.`);
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
      'afternoon',
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
    if (this.game.isOver) this.say('This afternoon is over: start over, or take another one.');
    return this.game.isOver || this.game.isAwaited || this.game.asked !== null;
  }

  private run(): void {
    if (this.game.isAwaited) {
      this.goesOn = true;
      this.say('The instrument is being made ready; then it plays.');
    }
    if (this.isStill()) return;
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

  private haveDoubts(): void {
    if (this.isStill()) return;
    this.game.doubting = true;
    this.say('Time stops before the next image.');
    if (!this.clock.isRunning) this.run();
  }

  private decide(choice: (typeof CHOICES)[number]): void {
    const isAnother = this.game.decide(choice);
    this.stage.state.put(DECISIONS, decisionsText(this.game.decisions));
    this.play.focus({ preventScroll: true });
    const goOn = () => {
      this.say(`${CHOICE_WORDS[choice]}.`);
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
    const isNew = game.asked !== null && this.question.hidden;
    this.question.hidden = game.asked === null;
    if (game.asked !== null) {
      this.halt();
      this.asking.textContent = `${tipName(game.asked)}, ${game.asked.images} images: ${doubtText(game.asked)}`;
      for (const { choice, press } of this.choices) press.hidden = !game.playing.offered.includes(choice);
      if (isNew) this.callAttention();
    }
    if (game.isOver && !this.wasOver) {
      this.halt();
      this.say('The afternoon is over. What was hidden stands below.');
    }
    this.wasOver = game.isOver;
  }

  /** The question is read out, and the keyboard comes to it if it is in this part of the page. */
  private callAttention(): void {
    this.say('Time stands still: what is to be done about the tip?');
    const { activeElement } = document;
    if (activeElement !== null && this.play.closest('section')?.contains(activeElement) === true)
      this.asking.focus({ preventScroll: true });
  }

  private say(text: string): void {
    if (this.said.textContent !== text) this.said.textContent = text;
  }
}
