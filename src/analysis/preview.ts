import { benchTimeOf } from '../campaign/campaign.js';
import { type CampaignModel, compileModel } from '../campaign/model.js';
import { LuckTable } from '../chance/luck.js';
import type { LoadedScenario } from '../scenario/load.js';
import { expandPlan, type PlanSummary, planSummary } from '../scenario/plan.js';
import type { RegisterValue } from '../scenario/register.js';
import { regionCount, samplesOf } from '../scenario/samples.js';
import { type LeadTime, leadTimeOf } from './lead-time.js';

/** One pass of the plan at the first strategy's pace. Times in seconds, path in millimetres. */
export interface PassPreview {
  readonly name: string;
  readonly tip: string;
  readonly images: number;
  /** Of one image. */
  readonly scanTime: number;
  /** Of one image. */
  readonly path: number;
}

/** What a scenario says before anything is run. */
export interface Preview {
  readonly title: string;
  readonly plan: {
    readonly order: string;
    readonly samples: number;
    readonly regions: number;
    readonly images: number;
    readonly passes: readonly PassPreview[];
  };
  readonly strategies: readonly ({
    readonly name: string;
    readonly workflow: string;
    /** When to begin preparing at the bench; null where nothing is prepared before the start. */
    readonly leadTime: LeadTime | null;
  } & PlanSummary)[];
  /** Hours as written: booked, with operators present, granted (null where nothing is), and what goes on unattended. */
  readonly hours: {
    readonly bookings: string;
    readonly operators: string;
    readonly granted: string | null;
    readonly unattended: string;
  };
  /** Values for which nobody has named a source. */
  readonly assumed: readonly Pick<RegisterValue, 'path' | 'value' | 'range' | 'description' | 'isDefault'>[];
}

/** Looks at a scenario without running it. */
export function previewScenario(loaded: LoadedScenario): Preview {
  const { settings } = loaded.strategies[0];
  const table = new LuckTable(settings.seed);
  const images = expandPlan(settings);
  const { order, passes } = settings.plan;
  return {
    title: settings.title,
    plan: {
      order,
      samples: samplesOf(settings.plan).length,
      regions: regionCount(settings.plan),
      images: images.length,
      passes: passes.map(({ name, tip }, index) => {
        const own = images.filter((image) => image.pass === index);
        return { name, tip, images: own.length, scanTime: own[0].scanTime, path: own[0].path };
      }),
    },
    strategies: loaded.strategies.map(({ name, workflow, settings: own }) => ({
      name,
      workflow,
      leadTime: leadTimeIn(compileModel(workflow, own), table),
      ...planSummary(own, workflow),
    })),
    hours: {
      bookings: written(loaded, 'bookings.hours') ?? 'always',
      operators: written(loaded, 'operators.hours') ?? 'always',
      granted: written(loaded, 'bookings.allocation'),
      unattended: settings.bookings.unattended,
    },
    assumed: loaded.register
      .filter(({ standing }) => standing === 'assumed')
      .map(({ path, value, range, description, isDefault }) => ({ path, value, range, description, isDefault })),
  };
}

/** Replications of preparing that it is read off. */
const PREPARED = 400;

function leadTimeIn(model: CampaignModel, table: LuckTable): LeadTime | null {
  return leadTimeOf(
    model,
    Float64Array.from({ length: PREPARED }, (_, i) => benchTimeOf(model, table.replication(i + 1))),
  );
}

/** A value of the shared part as the register has it; null where nothing is written. */
function written({ register }: LoadedScenario, path: string): string | null {
  return register.find((entry) => entry.path === path)?.value ?? null;
}
