import type { Change } from './change.js';
import { changedScenario, type ChangedScenario, openScenarioText } from './changed-scenario.js';

/** What every question to the worker says: the scenario as one part of the page has changed it. */
export interface Question {
  readonly changes: readonly Change[];
  /** Another seed text than the scenario's own; null for that one. */
  readonly seed: string | null;
}

/** Scenarios that are kept at hand once they have been read. */
const MOST = 60;

/** The scenario that the page was made for, and what changes made of it; the last few are remembered. */
export class Scenarios {
  private readonly known = new Map<string, ChangedScenario>();
  readonly opened: ChangedScenario;

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
}
