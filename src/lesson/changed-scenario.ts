import { isMap, parseDocument } from 'yaml';
import { type LoadedScenario, loadScenario } from '../scenario/load.js';
import { type Change, ownValues } from './change.js';

/** The text of a scenario with what a person changed in the lesson, and the scenario that it gives. */
export interface ChangedScenario {
  readonly text: string;
  readonly loaded: LoadedScenario;
}

/** A scenario that the checks of the command line refuse too. */
export class Refused extends Error {
  override readonly name = 'Refused';
}

/** @throws Refused with the first fault, where the text is no scenario */
export function openScenarioText(text: string): ChangedScenario {
  const result = loadScenario(text);
  if (result.ok) return { text, loaded: result.scenario };
  const [{ path, message }] = result.faults;
  throw new Refused(path === '' ? message : `${path}: ${message}`);
}

/**
 * Writes changes into the text of a scenario, so that what the lesson shows and what it saves are read from the same bytes.
 * What stands in the text beside them stays as it is, comments too.
 * @param seed in place of that of the text; null for that one
 * @throws Refused with the first fault, where the changes do not give a scenario
 */
export function changedScenario(
  opened: ChangedScenario,
  changes: readonly Change[],
  seed: string | null,
): ChangedScenario {
  if (changes.length === 0 && seed === null) return opened;
  const document = parseDocument(opened.text, { version: '1.2', schema: 'core' });
  if (seed !== null) document.set('seed', seed);
  for (const change of changes) {
    const place = opened.loaded.strategies.findIndex(({ name }) => name === change.strategy);
    const own = ['strategies', place, 'set'];
    for (const { path, value } of ownValues(opened.loaded, change)) {
      // The last word counts, so what was said earlier of the same path goes from its place.
      if (isMap(document.getIn(own))) document.deleteIn([...own, path]);
      else document.setIn(own, document.createNode({}));
      document.setIn([...own, path], document.createNode(value));
    }
  }
  return openScenarioText(document.toString({ lineWidth: 0 }));
}
