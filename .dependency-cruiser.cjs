/** Every folder imports only from itself and from those above it in this list. */
const LAYERS = [
  'kernel',
  'chance',
  'statistics',
  'survival',
  'scenario',
  'probe',
  'campaign',
  'study',
  'report',
  'lesson',
  'cli',
];

/** These run in a browser and in a worker as they are. */
const PURE = LAYERS.slice(0, LAYERS.indexOf('campaign') + 1);

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
      from: { path: folder(PURE) },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'only-the-report-and-the-lesson-draw',
      severity: 'error',
      from: { path: folder(LAYERS.filter((layer) => !['report', 'lesson', 'cli'].includes(layer))) },
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
