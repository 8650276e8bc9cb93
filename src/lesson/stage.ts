import type { VNode } from 'preact';
import type { Engine } from './engine.js';
import type { Facts } from './facts.js';
import type { State } from './state.js';

/** What every part of the page works with. */
export interface Stage {
  readonly engine: Engine;
  readonly facts: Facts;
  readonly state: State;
  /** Seed text for every question; null for the scenario's own. */
  readonly seed: string | null;
}

export interface StageProps {
  readonly stage: Stage;
}

/** One part of the lesson. */
export interface Part {
  /** Name of its place in the page; its settings in the address begin with it. */
  readonly id: string;
  readonly title: string;
  /** What stands under its heading. */
  readonly Content: (props: StageProps) => VNode;
}
