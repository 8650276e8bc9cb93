import { stringify } from 'yaml';
import type { Setting } from '../../scenario/ranges.js';
import type { Varied } from '../../analysis/vary/varied.js';

/** YAML that writes settings into a scenario: what the strategy sets for itself, whatever else it says there. */
export function snippetOf(
  strategy: { readonly name: string; readonly workflow: string },
  varied: readonly Varied[],
  settings: readonly Setting[],
): string {
  const pairs = varied.map(({ path }, place) => [path, settings[place]] as const);
  const own = pairs.filter(([path]) => !path.startsWith('strategies.'));
  const elsewhere = pairs.filter(([path]) => path.startsWith('strategies.'));
  const entry = { name: strategy.name, workflow: strategy.workflow, set: Object.fromEntries(own) };
  return [
    ...(own.length === 0 ? [] : [stringify({ strategies: [entry] }, { lineWidth: 0 })]),
    ...elsewhere.map(([path, setting]) => `# at ${stringify({ [path]: setting }, { lineWidth: 0 })}`),
  ].join('');
}
