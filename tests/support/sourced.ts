/** The sources of a scenario in which all but what is named as assumed has one, and the ranges of that; the last lines of its text. */
export function sourced(assumed: readonly string[], ranges: Readonly<Record<string, string>>): string {
  const given = ['plan', 'tips', 'workflows', 'noticing', 'rules', 'costs'].map((path) => `  ${path}: this test`);
  return [
    'sources:',
    ...given,
    ...assumed.map((path) => `  ${path}: assumed`),
    'ranges:',
    ...Object.entries(ranges).map(([path, range]) => `  ${path}: ${range}`),
    '',
  ].join('\n');
}
