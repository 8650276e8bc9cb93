import { meanDuration } from '../chance/duration.js';
import type { LoadedScenario } from '../scenario/load.js';
import { regionCount } from '../scenario/samples.js';
import type { Scenario, WorkflowName } from '../scenario/schema/scenario.js';
import { durationOf } from '../scenario/schema/steps.js';
import { freeHasteText, hasteCosts } from '../analysis/what-rushing-costs.js';
import { listed } from '../wording/phrases.js';

/** What the page knows of its scenario before the engine has said anything. */
export interface Facts {
  readonly title: string;
  /** Name of the file that the page was made from, without folders. */
  readonly file: string;
  readonly seed: string;
  readonly strategies: readonly StrategyFacts[];
}

export interface StrategyFacts {
  readonly name: string;
  readonly workflow: WorkflowName;
  readonly paceScan: number;
  readonly paceHands: number;
  /** Images after which a tip goes; null where no rule says so, or not in images. */
  readonly afterImages: number | null;
  readonly images: number;
  /** What a try at preparing a specimen for array-hop takes on average (seconds), and where that is done; null in a swap. */
  readonly preparing: { readonly time: number; readonly at: 'bench' | 'instrument' } | null;
  /** What makes each pace worse, or that nothing does, in one sentence. */
  readonly haste: { readonly scan: string; readonly hands: string; readonly wait: string };
}

export function factsOf({ base, strategies }: LoadedScenario, file: string): Facts {
  return {
    title: base.title,
    file,
    seed: base.seed,
    strategies: strategies.map(({ name, workflow, settings }) => ({
      name,
      workflow,
      paceScan: settings.pace.scan,
      paceHands: settings.pace.hands,
      afterImages: settings.rules.after?.unit === 'image' ? settings.rules.after.amount : null,
      images: regionCount(settings.plan) * settings.plan.passes.length,
      preparing: workflow === 'hop' ? preparing(settings) : null,
      haste: hasteText(settings, workflow),
    })),
  };
}

function preparing({ workflows: { hop } }: Scenario): StrategyFacts['preparing'] {
  return { time: meanDuration(durationOf(hop.steps.prepare)), at: hop.prepareAt };
}

const WHERE = 'in this scenario';

function hasteText(settings: Scenario, workflow: WorkflowName): StrategyFacts['haste'] {
  const costs = hasteCosts(settings, workflow);
  const or = (free: string, what: string, names: readonly string[]) =>
    free === '' ? `${what} costs something ${WHERE} (${listed(names)}).` : free;
  return {
    scan: or(freeHasteText(costs, 'scan', WHERE), 'Faster scanning', costs.scan),
    hands: or(freeHasteText(costs, 'hands', WHERE), 'Hurrying by hand', costs.hands),
    wait: or(freeHasteText(costs, 'wait', WHERE), 'Waiting less', costs.wait),
  };
}
