import { LuckTable } from '../chance/luck.js';
import { runnable, type Runnable } from '../execution/replicate.js';
import { Campaigns } from './campaigns.js';
import type { Change } from './change.js';
import { changedScenario, type ChangedScenario, openScenarioText } from './changed-scenario.js';

/** What every question to the worker says: the scenario as one part of the page has changed it. */
export interface Question {
  readonly changes: readonly Change[];
  /** Another seed text than the scenario's own; null for that one. */
  readonly seed: string | null;
}

/** Readings of the scenario that are kept at hand. */
const MOST = 120;

/** The scenario that the page was made for, and what changes made of it; the last few are remembered. */
export class Scenarios {
  private readonly known = new Map<string, ChangedScenario>();
  private readonly opened: ChangedScenario;
  private run: Campaigns | null = null;

  /** @throws Error where the text is no scenario */
  constructor(text: string) {
    this.opened = openScenarioText(text);
  }

  /** @throws Error where the changes do not give a scenario */
  with({ changes, seed }: Question): ChangedScenario {
    const key = JSON.stringify([changes, seed]);
    const found = this.known.get(key) ?? changedScenario(this.opened, changes, seed);
    this.known.set(key, found);
    if (this.known.size > MOST) this.known.delete(Array.from(this.known.keys())[0]);
    return found;
  }

  /** The random streams of the scenario as changed. */
  luck(question: Question): LuckTable {
    return new LuckTable(this.with(question).loaded.base.seed);
  }

  /** One strategy of the scenario as changed. @throws Error where it has none of that name */
  strategy(question: Question, name: string): Runnable {
    const found = this.with(question).loaded.strategies.filter((strategy) => strategy.name === name);
    if (found.length === 0) throw new RangeError(`No strategy is called ${name}.`);
    return runnable(found)[0];
  }

  /** Campaigns on the luck of the question's seed. */
  campaigns({ seed }: Question): Campaigns {
    const text = seed ?? this.opened.loaded.base.seed;
    if (this.run?.seed !== text) this.run = new Campaigns(text);
    return this.run;
  }
}
