/** Every folder imports only from itself and from those above it in this list. */
const LAYERS = [
  'kernel',
  'chance',
  'statistics',
  'survival',
  'wording',
  'probe',
  'scenario',
  'guide',
  'campaign',
  'execution',
  'analysis',
  'report',
  'studies',
  'page',
  'lesson',
  'explore',
  'cli',
];

/** These run in a browser and in a worker as they are, but for what is in MACHINE. */
const PURE = LAYERS.slice(0, LAYERS.indexOf('execution') + 1);

/** Threads, and files of results. */
const MACHINE = '^src/execution/machine/';

const folder = (names) => `^src/(${names.join('|')})/`;

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...LAYERS.slice(0, -1).map((layer, rank) => ({
      name: `${layer}-imports-only-from-earlier-layers`,
      severity: 'error',
      from: { path: folder([layer]) },
      to: { path: folder(LAYERS.slice(rank + 1)) },
    })),
    {
      name: 'no-study-imports-another',
      severity: 'error',
      from: { path: '^src/studies/([^/]+)/' },
      to: { path: '^src/studies/[^/]+/', pathNot: '^src/studies/$1/' },
    },
    {
      name: 'every-file-is-in-a-layer',
      severity: 'error',
      from: { path: '^src/', pathNot: folder(LAYERS) },
      to: {},
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'pure-layers-know-no-machine',
      severity: 'error',
      from: { path: folder(PURE), pathNot: MACHINE },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'pure-layers-import-nothing-of-the-machine',
      severity: 'error',
      from: { path: folder([...PURE, 'analysis', 'report', 'studies', 'page', 'lesson', 'explore']), pathNot: MACHINE },
      to: { path: MACHINE },
    },
    {
      name: 'only-the-report-draws-with-vega',
      severity: 'error',
      from: { path: folder(LAYERS.filter((layer) => !['report', 'studies', 'cli'].includes(layer))) },
      to: { path: 'node_modules/vega' },
    },
    {
      name: 'nothing-unresolved',
      severity: 'error',
      from: { path: '^src/' },
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
