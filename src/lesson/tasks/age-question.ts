import { bestOf } from '../best.js';
import type { Scenarios } from '../task.js';
import { AGE_ANSWERS } from './answers.js';
import { settingsAt } from './settings.js';
import { type Answered, ASKED_OF, WORKING } from './verdict.js';
import { ageChanges, type AgesAsked, atAge, type AtAge } from './when-to-hop.js';

/** How much oftener tips break in the question. */
const FACTOR = 3;

/** Whether tips that break oftener are best changed earlier. */
export async function* ageQuestion(asked: AgesAsked, scenarios: Scenarios): AsyncGenerator<Answered> {
  const { strategy, ages } = asked;
  const campaigns = scenarios.campaigns(asked);
  const best: number[] = [];
  for (const factor of [1, FACTOR]) {
    const changes = [{ strategy, scale: 'breakage', factor } as const];
    const points: AtAge[] = [];
    for (const { at, runnable } of settingsAt({ ...asked, changes }, scenarios, ages, (age) =>
      ageChanges(strategy, age),
    ).ready) {
      points.push(atAge(at, campaigns.upTo(runnable, ASKED_OF)));
      yield await Promise.resolve(WORKING);
    }
    best.push(bestOf(points).at);
  }
  const [usual, brittle] = best;
  const [fewer, alike, more] = AGE_ANSWERS;
  const right = brittle < usual ? fewer : brittle > usual ? more : alike;
  yield {
    right,
    why: `Of the ages tried, ${usual} is best with the tips of the scenario, and ${brittle} with tips that break ${FACTOR} times as often. Replacing early pays only where an old tip is likelier to fail than a new one, and where a change costs less than the scans it saves.`,
  };
}
