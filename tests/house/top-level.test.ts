import { readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { root } from '../support/command.js';

const DESIGNED = [
  'CHANGELOG.md',
  'CITATION.cff',
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'SECURITY.md',
  'package.json',
  'reports',
  'scenarios',
  'shared',
  'src',
  'tests',
  'tsconfig.json',
];
/** Files that a tool wants here and nowhere else. */
const TOOLS = ['eslint.config.js', 'package-lock.json', 'tsconfig.build.json', 'vitest.config.ts'];
const MADE = ['node_modules', 'dist', 'coverage'];

it('the top level holds what the design names and nothing else beside dot files', () => {
  const found = readdirSync(root).filter((entry) => !entry.startsWith('.') && ![...TOOLS, ...MADE].includes(entry));
  expect(found.sort()).toEqual(DESIGNED);
});
