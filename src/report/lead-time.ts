import type { LeadTime } from '../study/lead-time.js';
import { listed, quoted } from '../study/words.js';

interface Prepared {
  readonly name: string;
  readonly leadTime: LeadTime | null;
}

/** `For “hop”, begin preparing by Thu 14:00 (P90): it is done at the bench, before the start.`; a sentence for each moment. */
export function leadTimeSentences(strategies: readonly Prepared[]): readonly string[] {
  const ahead = strategies.flatMap(({ name, leadTime }) => (leadTime === null ? [] : [{ name, ...leadTime }]));
  return [...new Set(ahead.map(({ beginBy }) => beginBy))].map((beginBy) => {
    const names = ahead.filter((each) => each.beginBy === beginBy).map(({ name }) => quoted(name));
    return `For ${listed(names)}, begin preparing by ${beginBy} (P90): it is done at the bench, before the start.`;
  });
}
