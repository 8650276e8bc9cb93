// Packs the package as it would be published, looks at what is in it, installs it into an empty folder without running
// anybody's scripts, and does there what a newcomer does. Wants the registry for the libraries, and `tar`.
import { deepStrictEqual, ok, strictEqual } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PUBLISHED =
  /^package\/(?:dist\/(?:cli\/main\.js|commit\.json)|dist\/(?:lesson\/bundles|bundled)\/[\w.-]+\.(?:js|txt)|scenarios\/[\w./-]+\.(?:yaml|csv)|shared\/(?:scenario\.schema\.json|licences\.md)|package\.json|README\.md|LICENSE|CHANGELOG\.md|CITATION\.cff)$/u;
const WANTED = [
  ...['dist/cli/main.js', 'dist/commit.json'],
  ...['page.js', 'worker.js', 'NOTICES.txt'].map((file) => `dist/lesson/bundles/${file}`),
  ...['program.js', 'worker.js', 'NOTICES.txt'].map((file) => `dist/bundled/${file}`),
];

const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-package-'));

function run(command, args, cwd) {
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, encoding: 'utf8', maxBuffer: 1e9 });
  strictEqual(status, 0, `${command} ${args.join(' ')}\n${stdout}\n${stderr}`);
  return stdout;
}

try {
  run('npm', ['pack', '--pack-destination', folder], '.');
  const [archive] = readdirSync(folder);
  const files = run('tar', ['-tzf', archive], folder).trim().split('\n');
  deepStrictEqual(
    files.filter((file) => !PUBLISHED.test(file)),
    [],
    'files that have no place in the package',
  );
  for (const file of WANTED) ok(files.includes(`package/${file}`), `${file} is missing`);

  run('npm', ['init', '--yes'], folder);
  run('npm', ['install', `./${archive}`, '--ignore-scripts', '--no-audit', '--no-fund', '--prefer-offline'], folder);
  deepStrictEqual(
    readdirSync(join(folder, 'node_modules')).filter((name) => !name.startsWith('.')),
    ['swap-or-hop', 'tinypool'],
    'everything else is bundled',
  );
  const tool = (...args) => run(join(folder, 'node_modules/.bin/swap-or-hop'), args, folder);
  tool('init', 'mine.yaml', '--setting', 'ambient');
  tool('preview', 'mine.yaml');
  tool('compare', 'mine.yaml', '--replications', '20', '--quiet');
  const summary = JSON.parse(readFileSync(join(folder, 'reports/mine/summary.json'), 'utf8'));
  const { commit } = JSON.parse(readFileSync('dist/commit.json', 'utf8'));
  strictEqual(summary.tool.commit, commit);
  ok(!existsSync('.git') || typeof commit === 'string', 'the package does not know the commit that it was built from');
  ok(tool('verify', 'reports/mine/summary.json').includes('summary.json: the same to the byte'));
  tool('lesson');
  console.log(`${files.length} files; installed and run as swap-or-hop ${summary.tool.version}, commit ${commit}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
