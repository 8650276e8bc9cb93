import { meanDuration } from '../chance/duration.js';
import type { LoadedScenario } from '../scenario/load.js';
import { regionCount } from '../scenario/samples.js';
import type { WorkflowName } from '../scenario/schema/scenario.js';

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
  /** Seconds that preparing a specimen for hopping takes on average; null in a swap. */
  readonly preparing: number | null;
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
      preparing: workflow === 'hop' ? meanDuration(settings.workflows.hop.steps.prepare.duration) : null,
    })),
  };
}
