import type { StudyRecord } from '../study/about.js';

/** What every study says of how it was made, last in its list of facts. */
export function recordFacts({ scenario, tool, seed }: StudyRecord<string>): readonly (readonly [string, string])[] {
  return [
    ['Seed', seed],
    ['Scenario file', `${scenario.file}, SHA-256 ${scenario.sha256}`],
    ['Made by', `${tool.name} ${tool.version}`],
  ];
}
