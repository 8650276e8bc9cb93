import type { Question, Scenarios } from '../task.js';

/** The text of the scenario as changed, a file for the command line. */
export async function* save(asked: Question, scenarios: Scenarios): AsyncGenerator<string> {
  yield await Promise.resolve(scenarios.with(asked).text);
}
