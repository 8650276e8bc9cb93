import type { LeadTime } from '../analysis/lead-time.js';
import { listed, quoted } from '../wording/phrases.js';

interface Prepared {
  readonly name: string;
  readonly leadTime: LeadTime | null;
}

/** `For “hop”, begin preparing at the bench by Thu 14:00 (P90).`; a sentence for each moment. */
export function leadTimeSentences(strategies: readonly Prepared[]): readonly string[] {
  const ahead = strategies.flatMap(({ name, leadTime }) => (leadTime === null ? [] : [{ name, ...leadTime }]));
  return [...new Set(ahead.map(({ beginBy }) => beginBy))].map((beginBy) => {
    const names = ahead.filter((each) => each.beginBy === beginBy).map(({ name }) => quoted(name));
    return `For ${listed(names)}, begin preparing at the bench by ${beginBy} (P90).`;
  });
}
