import { isByHand } from '../../study/by-hand.js';
import type { RegisterEntry, Summary } from '../../study/results.js';
import { framed } from '../table.js';
import { html, unbroken } from '../text.js';
import { turnText } from './verdict.js';

/** Where a value comes from, in words. What is chosen (plan, policy) needs no source. */
export function origin(entry: RegisterEntry): string {
  const usual = entry.isDefault ? ' (default)' : '';
  if (entry.source !== null) return `${entry.source}${usual}`;
  const word = entry.standing === 'choice' ? 'chosen' : 'assumed';
  return entry.note === null ? `${word}${usual}` : `${word}: ${entry.note}${usual}`;
}

function turnsOf(entry: RegisterEntry, summary: Summary): string {
  if (isDrawn(entry, summary)) return 'drawn from what is known of it, not tried at the ends';
  if (entry.turns === null)
    return entry.standing === 'assumed' && entry.range !== null ? 'ends of the range not tried' : '';
  return entry.turns.map((turn) => `<span class="turn">${html(unbroken(turnText(turn, summary)))}</span>`).join('');
}

function isDrawn({ path }: RegisterEntry, { notKnowing }: Summary): boolean {
  return notKnowing?.inputs.some(({ parameters }) => parameters.some((each) => each.path === path)) ?? false;
}

function row(entry: RegisterEntry, summary: Summary): string {
  const from = html(origin(entry));
  const assumed = entry.standing === 'assumed';
  return `<tr><th scope="row">${html(entry.description.replaceAll('`', ''))}<code>${html(entry.path)}</code></th><td>${html(entry.value)}</td><td>${html(entry.range ?? '')}</td><td>${assumed ? `<span class="assumed">${from}</span>` : from}<span class="small">${turnsOf(entry, summary)}</span></td></tr>`;
}

const GROUPS: Readonly<Partial<Record<string, string>>> = {
  plan: 'Plan',
  tips: 'Tips',
  workflows: 'Workflows',
  noticing: 'Noticing',
  rules: 'Replacing',
  stock: 'Stock',
  pace: 'Pace',
  operators: 'People',
  instruments: 'Instruments',
  bookings: 'Bookings',
  costs: 'Prices',
  strategies: 'Strategies',
};

/** All values, those at whose limits a clear difference reverses or weakens first, the rest by the part of the scenario that they stand in. */
export function registerSection(summary: Summary): string {
  const turning = summary.register.filter((entry) => (entry.turns ?? []).length > 0);
  const rest = summary.register.filter((entry) => !turning.includes(entry));
  const groups = new Map<string, RegisterEntry[]>();
  if (turning.length > 0) groups.set('What reverses or weakens a difference', turning);
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
  const assumed = summary.register.filter((entry) => entry.standing === 'assumed').length;
  const ends = isByHand(summary.stopping.rule)
    ? 'Where an assumed value has a range, its ends were not tried, since the study was stopped by hand.'
    : 'Where an assumed value has a range, everything was run again at both of its limits; where a clear difference reverses or weakens comes first.';
  return `<section aria-labelledby="register">
<h2 id="register">Assumption register</h2>
<p>Every value behind the numbers above. ${String(assumed)} of ${String(summary.register.length)} are only <em>assumed</em>: nothing but judgement stands behind them. ${ends}</p>
${framed(
  `<table class="register">
<caption><span>Value, range within which it may lie, and where it comes from</span></caption>
<colgroup><col class="what"><col class="value"><col class="range"><col></colgroup>
<thead><tr><th scope="col">What</th><th scope="col">Value</th><th scope="col">Range</th><th scope="col">Source, or assumed</th></tr></thead>
${bodies.join('\n')}
</table>`,
  'Assumption register',
)}
</section>`;
}
