import { Document, isMap, isSeq, visit } from 'yaml';
import { bluntingData, bluntingSource, hazardData, hazardSource } from './hazard-data.js';
import type { FitSummary } from './results.js';

/** `hazards.yaml`: what was fitted, as a block to paste into a scenario. */
export function hazardBlock(summary: FitSummary): string {
  const sources: Record<string, string> = {};
  const tips: Record<string, Record<string, unknown>> = {};
  for (const { kind, causes } of summary.kinds) {
    const hazards = causes.flatMap((fit) => {
      if (fit.hazard === null) return [];
      sources[`tips.${kind}.hazards.${fit.cause}.life`] = hazardSource(summary, fit);
      const { per, life, acceleration, uncertainty } = hazardData(fit.hazard);
      const accelerated = Object.keys(acceleration).length === 0 ? {} : { acceleration };
      return [{ cause: fit.cause, per, life, ...accelerated, uncertainty }];
    });
    if (hazards.length > 0) tips[kind] = { hazards };
  }
  for (const blunting of summary.blunting) {
    const { wear, radius } = bluntingData(blunting);
    const source = bluntingSource(summary, blunting);
    tips[blunting.kind] = { radius, blunting: { wear }, ...tips[blunting.kind] };
    sources[`tips.${blunting.kind}.radius`] = source;
    sources[`tips.${blunting.kind}.blunting.wear`] = source;
  }
  if (Object.keys(tips).length === 0) return '# nothing could be fitted\n';
  const document = new Document({ tips, sources }, { version: '1.2' });
  visit(document, {
    Pair: (_, { value }, path) => {
      // What belongs to one hazard stands on one line each.
      if ((isMap(value) || isSeq(value)) && path.length > 6) value.flow = true;
    },
  });
  return document.toString({ lineWidth: 120 });
}
