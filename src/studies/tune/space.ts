import type { LoadedScenario } from '../../scenario/load.js';
import type { LaidStrategy } from '../../scenario/strategies.js';
import type { Setting } from '../../scenario/ranges.js';
import { type Runnable, runnable } from '../../execution/replicate.js';
import { applySettings, settingText, type Varied } from '../../analysis/vary/varied.js';
import { isAscending } from './order.js';
import type { Grid, Place } from './search.js';

/** One setting of all the values varied, ready to be run. */
export interface Candidate {
  readonly place: Place;
  readonly settings: readonly Setting[];
  readonly strategy: Runnable;
  /** The same as the scenario has it, so that what is uncertain can be drawn. */
  readonly laid: LaidStrategy;
  /** It leaves the strategy as it is. */
  readonly isPresent: boolean;
}

/** All settings that the ranges make together, of one strategy. */
export class Space {
  readonly grid: Grid;
  readonly size: number;
  /** Settings that cannot be together, with the first reason given. */
  readonly refused: { count: number; reason: string | null } = { count: 0, reason: null };
  private readonly own: LaidStrategy;

  constructor(
    private readonly loaded: LoadedScenario,
    readonly strategy: string,
    readonly varied: readonly Varied[],
  ) {
    this.grid = {
      sizes: varied.map(({ settings }) => settings.length),
      isOrdered: varied.map(isAscending),
    };
    this.size = this.grid.sizes.reduce((product, size) => product * size, 1);
    this.own = strategyIn(loaded, strategy);
  }

  /** The strategy as the scenario has it. */
  get present(): Runnable {
    return runnable([this.own])[0];
  }

  /** Its settings of what is varied, as far as the scenario writes them down; null where it has none. */
  get presentSettings(): readonly Setting[] {
    return this.varied.map(({ path }) => {
      const places = [`strategies.${this.strategy}.set.${path}`, `strategies.${this.strategy}.${path}`, path];
      const entry = places
        .map((place) => this.loaded.register.find((each) => each.path === place))
        .find((each) => each !== undefined);
      return entry?.value ?? null;
    });
  }

  /** The place of the present settings, where the ranges hold it. */
  get presentPlace(): Place | null {
    const place = this.presentSettings.map((setting, direction) =>
      this.varied[direction].settings.findIndex((each) => settingText(each) === settingText(setting)),
    );
    return place.includes(-1) ? null : place;
  }

  /** Place number `number` (from 0) in the order of the ranges, the last one running fastest. */
  placeAt(number: number): Place {
    let rest = number;
    return this.grid.sizes
      .toReversed()
      .map((size) => {
        const index = rest % size;
        rest = Math.floor(rest / size);
        return index;
      })
      .toReversed();
  }

  /** Null where the settings cannot be together. */
  candidateAt(place: Place): Candidate | null {
    const settings = place.map((index, direction) => this.varied[direction].settings[index]);
    const pairs = this.varied.map(({ path }, direction) => [path, settings[direction]] as const);
    const applied = applySettings(this.loaded, pairs, this.strategy);
    if (!applied.ok) {
      this.refused.count += 1;
      this.refused.reason ??= applied.message;
      return null;
    }
    const changed = strategyIn(applied.scenario, this.strategy);
    const isPresent = JSON.stringify(changed.settings) === JSON.stringify(this.own.settings);
    return { place, settings, strategy: runnable([changed])[0], laid: changed, isPresent };
  }
}

function strategyIn({ strategies }: Pick<LoadedScenario, 'strategies'>, name: string): LaidStrategy {
  const found = strategies.find((strategy) => strategy.name === name);
  if (found === undefined) throw new Error(`no strategy is called ${name}`);
  return found;
}
