import { Document, isCollection, isScalar, visit } from 'yaml';
import { isName } from '../../scenario/schema/leaf.js';
import { show } from '../../scenario/show.js';
import { workflowDrifts } from './drift/drift-data.js';
import type { DriftFitSummary } from './drift/results.js';
import { bluntingData, bluntingSource, hazardData, hazardSources, type ScenarioData } from './hazard-data.js';
import type { FitSummary } from './results.js';

/** What stands on one line, as people write it. */
const ON_ONE_LINE = ['life', 'acceleration', 'uncertainty', 'handling', 'move'];

const NOTHING = '# nothing could be fitted\n';

/** `hazards.yaml`: what was fitted, as a block to paste into a scenario. */
export function hazardBlock(fitted: FitSummary): string {
  const { blocked, summary } = withoutNameless(fitted);
  const sources: Record<string, string> = {};
  const tips: Record<string, Record<string, unknown>> = {};
  for (const { kind, causes } of summary.kinds) {
    const hazards = causes.flatMap((fit) => {
      if (fit.hazard === null) return [];
      for (const [path, source] of hazardSources(`tips.${kind}.hazards.${fit.cause}`, summary, fit))
        sources[path] = source;
      const { per, life, acceleration, uncertainty } = hazardData(fit.hazard);
      const accelerated = Object.keys(acceleration).length === 0 ? {} : { acceleration };
      return [{ cause: fit.cause, per, life, ...accelerated, uncertainty }];
    });
    if (hazards.length > 0) tips[kind] = { hazards };
  }
  for (const blunting of summary.blunting) {
    const { wear, radius } = bluntingData(blunting);
    const source = bluntingSource(blunting);
    tips[blunting.kind] = { radius, blunting: { wear }, ...tips[blunting.kind] };
    sources[`tips.${blunting.kind}.radius`] = source;
    sources[`tips.${blunting.kind}.blunting.wear`] = source;
  }
  if (Object.keys(tips).length === 0) return blocked === '' ? NOTHING : blocked;
  return `${blocked}${blockOf({ tips, sources })}`;
}

function blockOf(data: ScenarioData): string {
  const document = new Document(data, { version: '1.2' });
  visit(document, {
    Pair: (_, { key, value }) => {
      if (isScalar(key) && isCollection(value) && ON_ONE_LINE.includes(String(key.value))) value.flow = true;
    },
  });
  return document.toString({ lineWidth: 120 });
}

/** `drift.yaml`: the same of drift. */
export function driftBlock(summary: DriftFitSummary): string {
  const drifts = workflowDrifts(summary);
  if (drifts.length === 0) return NOTHING;
  return blockOf({
    workflows: Object.fromEntries(
      drifts.map(({ workflow, entries, uncertainty }) => [workflow, { drift: { ...entries, uncertainty } }]),
    ),
    sources: Object.fromEntries(drifts.flatMap(({ sources }) => sources)),
  });
}

/** What is left without kinds whose name no scenario allows, and what is said of those. */
function withoutNameless(summary: FitSummary): { readonly blocked: string; readonly summary: FitSummary } {
  const named = ({ kind }: { readonly kind: string }) => isName(kind);
  const refused = new Set(
    [...summary.kinds, ...summary.blunting].filter((each) => !named(each)).map(({ kind }) => kind),
  );
  const blocked = [...refused].map(
    (kind) => `# left out: no scenario has a kind called ${show(kind)}; give it another name with --tip KIND=NAME\n`,
  );
  return {
    blocked: blocked.join(''),
    summary: { ...summary, kinds: summary.kinds.filter(named), blunting: summary.blunting.filter(named) },
  };
}
