import { Document, isCollection, isScalar, visit } from 'yaml';
import { bluntingData, bluntingSource, hazardData, hazardSources } from './hazard-data.js';
import type { FitSummary } from './results.js';

/** What stands on one line, as people write it. */
const ON_ONE_LINE = ['life', 'acceleration', 'uncertainty'];

/** `hazards.yaml`: what was fitted, as a block to paste into a scenario. */
export function hazardBlock(summary: FitSummary): string {
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
  if (Object.keys(tips).length === 0) return '# nothing could be fitted\n';
  const document = new Document({ tips, sources }, { version: '1.2' });
  visit(document, {
    Pair: (_, { key, value }) => {
      if (isScalar(key) && isCollection(value) && ON_ONE_LINE.includes(String(key.value))) value.flow = true;
    },
  });
  return document.toString({ lineWidth: 120 });
}
