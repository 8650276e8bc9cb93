import type { LoadedScenario } from '../assemble.js';
import { CHECKS } from './all.js';

/** The first reason why a strategy of a changed scenario cannot be carried out, in words; null where all can. */
export function impossibleIn({ strategies }: Pick<LoadedScenario, 'strategies'>): string | null {
  for (const { name, workflow, settings } of strategies) {
    const finding = CHECKS.flatMap((check) => check(settings, workflow)).find(({ severity }) => severity === 'error');
    if (finding !== undefined) return `${finding.message} (${name})`;
  }
  return null;
}
