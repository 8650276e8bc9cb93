/** What is changed of each folder, and the tests that belong to it. */
const mirrored = (folder) => ({ changed: [`src/${folder}/**/*.ts`], tests: [`tests/${folder}/**/*.test.ts`] });
const published = (...names) => names.map((name) => `tests/published/${name}.test.ts`);

/** What makes results; what lays them out as pages, tables, charts and words is left alone. */
const results = (folder, ...tests) => ({
  changed: [
    `src/${folder}/**/*.ts`,
    '!src/**/*{chart,charts,csv,page,report,results,study,table,tables,terminal,text,words}.ts',
    '!src/**/{charts,page,methods}/**',
    '!src/analysis/{about,beside,by-hand,calendar,drift-line,preview,sheet,timeline,trace}.ts',
  ],
  tests,
});
/** Each is a folder of its own, as its tests play campaigns: all of them for each change would take minutes. */
const STUDIES = [
  ...['breakeven', 'budget', 'compare', 'fit', 'hindcast', 'midway', 'occupancy'],
  ...['sensitivity', 'sweep', 'tune', 'worth'],
];

export const FOLDERS = {
  kernel: mirrored('kernel'),
  chance: { changed: ['src/chance/**/*.ts'], tests: ['tests/chance/**/*.test.ts', ...published('generator', 'lives')] },
  probe: {
    changed: ['src/probe/**/*.ts'],
    tests: ['tests/probe/**/*.test.ts', ...published('drift', 'residual-life', 'wear')],
  },
  campaign: mirrored('campaign'),
  statistics: {
    changed: ['src/statistics/**/*.ts', '!src/statistics/information/*.ts'],
    tests: [
      'tests/statistics/**/*.test.ts',
      ...published('intervals', 'kolmogorov', 'quantiles', 'selection', 'variance-components'),
    ],
  },
  // A folder of its own, without the published cases, which draw many samples: with them each change would take minutes.
  information: {
    changed: ['src/statistics/information/*.ts'],
    tests: ['tests/statistics/information/*.test.ts'],
  },
  survival: {
    changed: ['src/survival/*.ts', '!src/survival/{posterior,drift-*,vanishing,wear*}.ts'],
    tests: ['tests/survival/{curves,fits}.test.ts', ...published('lives', 'survival-*', 'wear')],
  },
  // Folders of their own, as their tests take seconds each.
  readings: {
    changed: ['src/survival/{drift-*,vanishing,wear*}.ts'],
    tests: ['tests/survival/{drift,wear}.test.ts'],
  },
  posterior: {
    changed: ['src/survival/posterior.ts'],
    tests: ['tests/survival/posterior.test.ts'],
  },
  analysis: results('analysis', 'tests/analysis/**/*.test.ts', 'tests/studies/compare/{compare,shown,verdict}.test.ts'),
  ...Object.fromEntries(
    STUDIES.map((study) => [study, results(`studies/${study}`, `tests/studies/${study}/**/*.test.ts`)]),
  ),
};
