import type { Duration } from '../chance/duration.js';
import { type Life, parametersOf } from '../chance/life.js';
import type { LoadedScenario } from '../scenario/load.js';
import type { Hazard, Scenario, WorkflowName } from '../scenario/schema/scenario.js';
import { durationOf } from '../scenario/schema/steps.js';

/** What a person can make longer or likelier by a factor, without knowing how the scenario writes it. */
export type Scaled = 'preparation' | 'breakage' | 'fouling';

/** What one strategy alone is to follow: a value by its path, such as `pace.scan`, or something by a factor. */
export type Change =
  | { readonly strategy: string; readonly path: string; readonly value: number | string }
  | { readonly strategy: string; readonly scale: Scaled; readonly factor: number };

/** A value as it stands under `set` of a strategy. */
export interface OwnValue {
  readonly path: string;
  readonly value: unknown;
}

/** A hurry of one strategy. */
export function paceChanges(strategy: string, scan: number, hands: number): readonly Change[] {
  return [
    { strategy, path: 'pace.scan', value: scan },
    { strategy, path: 'pace.hands', value: hands },
  ];
}

/** So many minutes of settling after each change. */
export function waitChanges(strategy: string, workflow: WorkflowName, wait: number): readonly Change[] {
  return [{ strategy, path: `workflows.${workflow}.steps.settle`, value: `${wait} min` }];
}

/** The values that a change writes. @throws RangeError where no strategy has that name */
export function ownValues(loaded: LoadedScenario, change: Change): readonly OwnValue[] {
  if ('path' in change) return [{ path: change.path, value: change.value }];
  const found = loaded.strategies.find(({ name }) => name === change.strategy);
  if (found === undefined) throw new RangeError(`No strategy is called ${change.strategy}.`);
  if (change.factor === 1) return [];
  return change.scale === 'preparation'
    ? [longerPreparation(found.settings, change.factor)]
    : moreOften(found.settings, change.scale, change.factor);
}

function longerPreparation({ workflows }: Scenario, factor: number): OwnValue {
  const { prepare } = workflows.hop.steps;
  const { manual, success } = prepare;
  return {
    path: 'workflows.hop.steps.prepare',
    value: { ...writtenTime(durationOf(prepare), factor), manual, success },
  };
}

function writtenTime(duration: Duration, factor: number): Readonly<Record<string, string>> {
  const time = (seconds: number) => `${tidy(seconds * factor)} s`;
  switch (duration.distribution) {
    case 'fixed':
      return { fixed: time(duration.value) };
    case 'lognormal':
      return { usual: time(duration.median), p90: time(duration.p90) };
    case 'triangular':
      return { min: time(duration.min), mode: time(duration.mode), max: time(duration.max) };
  }
}

function tidy(value: number): number {
  return Number(value.toPrecision(9));
}

/** Every hazard of the cause comes so many times as often: its lives are shorter by the factor. */
function moreOften({ tips }: Scenario, cause: Hazard['cause'], factor: number): readonly OwnValue[] {
  return Object.entries(tips).flatMap(([kind, { hazards }]) =>
    hazards.flatMap((hazard, place) =>
      hazard.cause === cause
        ? shortened(hazard.life, hazard.per, factor).map(({ path, value }) => ({
            path: `tips.${kind}.hazards.${place}.life.${path}`,
            value,
          }))
        : [],
    ),
  );
}

const UNITS: Readonly<Record<Hazard['per'], string>> = {
  image: 'images',
  distance: 'mm',
  hour: 'h',
  approach: 'approaches',
};
/** A chance of one leaves nothing to choose. */
const GREATEST_CHANCE = 0.95;

function shortened(life: Life, per: Hazard['per'], factor: number): readonly OwnValue[] {
  return parametersOf(life).flatMap(({ at, parameter, value }): readonly OwnValue[] => {
    const path = at.join('.');
    if (parameter.is === 'exposure') return [{ path, value: `${tidy(value / factor)} ${UNITS[per]}` }];
    return parameter.is === 'probability' ? [{ path, value: tidy(Math.min(GREATEST_CHANCE, value * factor)) }] : [];
  });
}
