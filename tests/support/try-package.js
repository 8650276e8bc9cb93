// Packs the package as it would be published, looks at what is in it, installs it into an empty folder without running
// anybody's scripts and without a network, and does there what a newcomer does. Wants `tar`.
import { deepStrictEqual, ok, strictEqual } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PUBLISHED =
  /^package\/(?:node_modules\/tinypool\/[\w./-]+|dist\/(?:cli\/main\.js|commit\.json)|dist\/(?:lesson\/bundles|explore\/bundles|bundled)\/[\w.-]+\.(?:js|txt)|scenarios\/[\w./-]+\.(?:yaml|csv)|shared\/(?:scenario\.schema\.json|sbom\.cdx\.json|licences\.md)|package\.json|README\.md|LICENSE|CHANGELOG\.md|SECURITY\.md|CITATION\.cff)$/u;
const WANTED = [
  ...['dist/cli/main.js', 'dist/commit.json'],
  ...['page.js', 'worker.js', 'NOTICES.txt'].flatMap((file) => [
    `dist/lesson/bundles/${file}`,
    `dist/explore/bundles/${file}`,
  ]),
  ...['program.js', 'worker.js', 'NOTICES.txt'].map((file) => `dist/bundled/${file}`),
];

const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-package-'));

function run(command, args, cwd) {
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, encoding: 'utf8', maxBuffer: 1e9 });
  strictEqual(status, 0, `${command} ${args.join(' ')}\n${stdout}\n${stderr}`);
  return stdout;
}

try {
  const pack = () => {
    run('npm', ['pack', '--pack-destination', folder], '.');
    const [archive] = readdirSync(folder);
    return { archive, bytes: readFileSync(join(folder, archive)) };
  };
  const { archive, bytes } = pack();
  ok(pack().bytes.equals(bytes), 'packed twice, it is not the same to the byte');
  const files = run('tar', ['-tzf', archive], folder).trim().split('\n');
  deepStrictEqual(
    files.filter((file) => !PUBLISHED.test(file)),
    [],
    'files that have no place in the package',
  );
  for (const file of WANTED) ok(files.includes(`package/${file}`), `${file} is missing`);

  run('npm', ['init', '--yes'], folder);
  // With the one library that it brings inside it, it is installed without a network.
  const offline = ['--offline', '--cache', join(folder, 'no-cache')];
  run('npm', ['install', `./${archive}`, '--ignore-scripts', '--no-audit', '--no-fund', ...offline], folder);
  deepStrictEqual(
    readdirSync(join(folder, 'node_modules')).filter((name) => !name.startsWith('.')),
    ['swap-or-hop'],
    'everything else comes inside it',
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
  tool('explore', 'mine.yaml', '--write-only');
  console.log(`${files.length} files; installed and run as swap-or-hop ${summary.tool.version}, commit ${commit}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
