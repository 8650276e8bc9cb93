import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../src/scenario/load.js';
import { STUDIES } from '../../src/studies/index.js';
import { root, swapOrHop } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

const read = (file: string) => readFileSync(join(root, file), 'utf8');
const readme = read('README.md');

describe('the README', () => {
  it('opens with the job in one paragraph and the two commands', () => {
    const [title, job, commands] = readme.split('\n\n');
    expect(title).toBe('# swap-or-hop');
    expect(job.split('\n').length).toBeGreaterThan(3);
    expect(commands).toContain('npm ci && npm run demo');
    expect(commands).toContain('npm ci && npm test');
  });

  it('shows a shortest scenario that loads as it stands', () => {
    const example = /```yaml\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
    const result = loadScenario(example);
    expect(result.ok ? result.warnings : result.faults).toEqual([]);
    expect(result.ok).toBe(true);
  });

  it('is short', () => {
    expect(readme.split('\n').length).toBeLessThanOrEqual(220);
  });

  it('leads to an example of every command and to every option of compare', async () => {
    const manual = read('shared/docs/commands.md');
    const { stdout } = await swapOrHop(['compare', '--help']);
    const options = [...stdout.matchAll(/--([a-z-]+)/g)]
      .map(([option]) => option)
      .filter((option) => !/help|version|color$/.test(option));
    expect(options.length).toBeGreaterThan(4);
    for (const option of nonEmpty(options)) expect(manual).toContain(option);
    const commands = [...(await swapOrHop(['--help'])).stdout.matchAll(/^ {2}swap-or-hop (\w+) /gm)].map(
      ([, name]) => name,
    );
    expect(commands.length).toBeGreaterThan(10);
    for (const command of nonEmpty(commands)) {
      expect(readme).toMatch(new RegExp(`swap-or-hop ${command} |\`${command}\``));
      expect(manual).toContain(`$ swap-or-hop ${command} `);
    }
  });
});

describe.each(Object.entries(STUDIES))('the study %s', (name, { question, files }) => {
  it('stands with its question in the table of the README, and with every file in the documentation of reports', () => {
    const row = readme.split('\n').find((line) => line.includes(`| [\`${name}\`](`));
    expect(row).toContain(`| ${question} `);
    const documentation = read('reports/README.md');
    expect(documentation).toContain(
      name === 'compare' ? '## `summary.json`, format' : `## \`summary.json\` of \`${name}\``,
    );
    for (const file of nonEmpty(files)) expect(documentation).toContain(`\`${file}\``);
  });
});

const DOCUMENTS = readdirSync(join(root, 'shared/docs')).map((file) => `shared/docs/${file}`);

describe.each(['README.md', 'DEVELOPERS.md', 'reports/README.md', 'CHANGELOG.md', ...DOCUMENTS])('%s', (file) => {
  it('links only to files that are there', () => {
    const links = [...read(file).matchAll(/\]\(([^)#\s]+)\)/g)]
      .map(([, link]) => link)
      .filter((link) => !link.includes('://'));
    expect(links.filter((link) => !existsSync(join(root, dirname(file), link)))).toEqual([]);
  });

  it('holds no path of somebody’s machine', () => {
    expect(read(file)).not.toMatch(/(?<![\w.])\/(home|work|tmp|Users)\//);
  });
});
