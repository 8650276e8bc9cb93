import { microseconds } from '../kernel/clock.js';
import { specimenSupply, type Supply } from '../scenario/samples.js';
import type { Scenario } from '../scenario/schema/scenario.js';

/** What is limited, and how, by the name under which it is taken. */
export function suppliesOf(settings: Scenario): readonly (readonly [string, Supply])[] {
  const { tips, chips } = settings.stock;
  return [
    ...Object.entries(tips).map(([kind, supply]) => [tipsOf(kind), supply] as const),
    ...(chips === undefined ? [] : [['chip', chips] as const]),
    [SPECIMEN, specimenSupply(settings)],
  ];
}

const SPECIMEN = 'specimen';

/** Under what tips of a kind are taken. */
export function tipsOf(kind: string): string {
  return `${kind} tip`;
}

/** Microseconds from running out to the delivery; 0 where none comes. */
export function deliveryDelay({ restock }: Supply): number {
  return microseconds(restock ?? 0);
}
