import { isInterrupted } from '../../../analysis/interrupted.js';
import type { Assumption, Summary } from '../../../analysis/results.js';
import { framed } from '../../../report/table.js';
import { html } from '../../../report/text.js';

/** Where a value comes from, in words. What is chosen (plan, policy) needs no source. */
export function origin(entry: Assumption): string {
  const usual = entry.isDefault ? 'default, ' : '';
  if (entry.source !== null) return `${usual}${entry.source}`;
  if (entry.standing === 'choice') return entry.isDefault ? 'default' : 'chosen';
  const note = entry.note?.replace(/,? no source$/u, '').replace(/^assumed:? ?/u, '') ?? '';
  return `${usual}${note === '' ? '' : `${note}, `}no source`;
}

function triedText(entry: Assumption, summary: Summary): string {
  if (isDrawn(entry, summary)) return 'drawn from its distribution, not tried at range limits';
  if (entry.reversals === null)
    return entry.standing === 'assumed' && entry.range !== null ? 'range limits not tried' : '';
  return entry.reversals.length === 0 ? '' : 'see where differences reverse or weaken';
}

function isDrawn({ path }: Assumption, { parameterUncertainty }: Summary): boolean {
  return parameterUncertainty?.inputs.some(({ parameters }) => parameters.some((each) => each.path === path)) ?? false;
}

function row(entry: Assumption, summary: Summary): string {
  const from = html(origin(entry));
  const assumed = entry.standing === 'assumed';
  return `<tr><th scope="row">${html(entry.description.replaceAll('`', ''))}<code>${html(entry.path)}</code></th><td>${html(entry.value)}</td><td>${html(entry.range ?? '')}</td><td>${assumed ? `<span class="assumed">${from}</span>` : from}<span class="small">${triedText(entry, summary)}</span></td></tr>`;
}

const GROUPS: Readonly<Partial<Record<string, string>>> = {
  plan: 'Plan',
  tips: 'Tips',
  workflows: 'Workflows',
  noticing: 'Noticing',
  rules: 'Replacing',
  stock: 'Stock',
  pace: 'Pace',
  operators: 'Operators',
  instruments: 'Instruments',
  bookings: 'Bookings',
  smallestDifference: 'What matters',
  costs: 'Prices',
  strategies: 'Strategies',
};

/** All values, those at whose limits a clear difference reverses or weakens first, the rest by the part of the scenario that they stand in. */
export function assumptionsSection(summary: Summary): string {
  const reversing = summary.assumptions.filter((entry) => (entry.reversals ?? []).length > 0);
  const rest = summary.assumptions.filter((entry) => !reversing.includes(entry));
  const groups = new Map<string, Assumption[]>();
  if (reversing.length > 0) groups.set('What reverses or weakens a difference', reversing);
  for (const entry of rest) {
    const part = entry.path.split('.', 1)[0];
    const name = GROUPS[part] ?? part;
    groups.set(name, [...(groups.get(name) ?? []), entry]);
  }
  const bodies = [...groups].map(
    ([name, entries]) => `<tbody>
<tr class="group"><th scope="rowgroup" colspan="4">${html(name)}</th></tr>
${entries.map((entry) => row(entry, summary)).join('\n')}
</tbody>`,
  );
  const assumed = summary.assumptions.filter((entry) => entry.standing === 'assumed').length;
  const tried = isInterrupted(summary.stopping.rule)
    ? 'The limits of plausible ranges were not tried, since the study was interrupted.'
    : 'Where an assumed value has a plausible range, everything was run again at both of its limits; where a clear difference reverses or weakens comes first.';
  return `<section aria-labelledby="assumptions">
<h2 id="assumptions">Assumptions</h2>
<p>Every value behind the numbers above. ${String(assumed)} of ${String(summary.assumptions.length)} are <em>assumed</em>: they have no source. ${tried} All of them stand in <code>inputs.csv</code> too.</p>
<details><summary>All ${String(summary.assumptions.length)} values</summary>
${framed(
  `<table class="assumptions">
<caption><span>Value, plausible range, and source</span></caption>
<colgroup><col class="what"><col class="value"><col class="range"><col></colgroup>
<thead><tr><th scope="col">What</th><th scope="col">Value</th><th scope="col">Plausible range</th><th scope="col">Source</th></tr></thead>
${bodies.join('\n')}
</table>`,
  'Assumptions',
)}
</details>
</section>`;
}
