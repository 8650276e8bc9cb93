// Lists everything that comes with the package, what is installed beside it by the lock file and what is bundled into it by
// the notices that the build wrote: by licence in shared/licences.md, and as a bill of materials (CycloneDX 1.6) in
// shared/sbom.cdx.json, which names no time and no serial number, so that it is the same whenever it is written.
// With --check it writes nothing and fails where the list is not current. Either way it fails where a licence is not
// known to go with distribution under Apache-2.0.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

/**
 * Licences that may be part of what is distributed under Apache-2.0: category A of the "ASF 3rd Party License Policy"
 * (Apache Software Foundation, apache.org/legal/resolved.html), by their SPDX names.
 */
const COMPATIBLE = [
  ...['0BSD', 'Apache-2.0', 'BlueOak-1.0.0', 'BSD-2-Clause', 'BSD-3-Clause', 'BSL-1.0', 'CC0-1.0', 'ISC', 'MIT'],
  ...['Python-2.0', 'Unlicense', 'Zlib'],
];
const LIST = 'shared/licences.md';
const BILL = 'shared/sbom.cdx.json';
const NOTICES = ['dist/bundled/NOTICES.txt', 'dist/lesson/bundles/NOTICES.txt', 'dist/explore/bundles/NOTICES.txt'];

const isCheck = process.argv.includes('--check');
const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8'));
const all = Object.entries(packages)
  .filter(([path]) => path !== '')
  .map(([path, { version, license, dev = false }]) => ({
    name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length),
    version,
    licence: license ?? 'none named',
    dev,
  }));

/** Of alternatives one is enough, of licences that hold together all are wanted; anything else is not understood. */
function isCompatible(licence) {
  return licence
    .replace(/^\((.*)\)$/u, '$1')
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((each) => COMPATIBLE.includes(each)));
}

function byLicence(list) {
  const lines = new Map();
  for (const { name, version, licence } of list)
    lines.set(licence, [...(lines.get(licence) ?? []), `${name} ${version}`]);
  return [...lines]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([licence, names]) => [licence, [...new Set(names)].sort()]);
}

const bundled = NOTICES.filter((file) => existsSync(file)).flatMap((file) =>
  [...readFileSync(file, 'utf8').matchAll(/^(@?[\w./-]+) (\d[\w.-]*) \((.+)\)$/gmu)].map(
    ([, name, version, licence]) => ({ name, version, licence }),
  ),
);
const isBundled = ({ name, version }) => bundled.some((each) => each.name === name && each.version === version);
const installed = all.filter(({ dev }) => !dev);
const shipped = [...installed, ...bundled];
const tools = all.filter((each) => each.dev && !isBundled(each));
const text = [
  '# Licences of the libraries',
  `\`npm run licences\` writes this list from the lock file and the build. All libraries below come with the package, under licences that go with Apache-2.0 (category A of the ASF 3rd Party License Policy). ${installed.map(({ name }) => name).join(', ')} is installed beside it; of the others, parts are bundled into it, with their notices.`,
  ...byLicence(shipped).map(([licence, names]) => `## ${licence}\n\n${names.map((name) => `- ${name}`).join('\n')}`),
  '## Only for building and testing',
  `Not part of the package: ${byLicence(tools)
    .map(([licence, names]) => `${names.length} under ${licence}`)
    .join(', ')}.`,
].join('\n\n');

const purl = (name, version) => `pkg:npm/${name.replace('@', '%40')}@${version}`;
const components = new Map(
  shipped.map(({ name, version, licence }) => [
    purl(name, version),
    { type: 'library', name, version, purl: purl(name, version), licenses: [{ expression: licence }] },
  ]),
);
const { name, version, license } = packages[''];
const bill = {
  bomFormat: 'CycloneDX',
  specVersion: '1.6',
  version: 1,
  metadata: {
    component: { type: 'application', name, version, purl: purl(name, version), licenses: [{ expression: license }] },
  },
  components: [...components.keys()].sort().map((key) => components.get(key)),
};
const written = new Map([
  [LIST, `${text}\n`],
  [BILL, `${JSON.stringify(bill, null, 2)}\n`],
]);

const wrong = shipped.filter(({ licence }) => !isCompatible(licence));
for (const { name, version, licence } of wrong)
  console.error(`${name} ${version}: licence “${licence}” is not known to go with Apache-2.0`);
const isCurrent = ([file, wanted]) => existsSync(file) && readFileSync(file, 'utf8') === wanted;
if (wrong.length > 0) process.exitCode = 1;
else if (!isCheck) for (const [file, wanted] of written) writeFileSync(file, wanted);
else
  for (const [file] of [...written].filter((each) => !isCurrent(each))) {
    console.error(`${file} is not current: run \`npm run licences\``);
    process.exitCode = 1;
  }
