import js from '@eslint/js';
import tseslint from 'typescript-eslint';

/** Arithmetic that every engine rounds alike; constants are exact too. */
const EXACT_MATH = 'sqrt|floor|ceil|round|imul|clz32|min|max|abs|PI|SQRT2';
/** What is written promises the same bytes on any machine; a page computes what it shows for itself. */
const REPRODUCIBLE = ['src/**/*.ts'];
const SHOWN = ['src/lesson/**/*.ts', 'src/explore/**/*.{ts,tsx}'];
/** Kernel to campaign and what runs them are used in a browser and in a worker as they are. */
const PURE = ['kernel', 'chance', 'statistics', 'survival', 'scenario', 'guide', 'probe', 'campaign', 'execution'].map(
  (layer) => `src/${layer}/**/*.ts`,
);
const MACHINE = ['src/execution/machine/**/*.ts'];

export default tseslint.config(
  { ignores: ['dist/', 'coverage/', 'reports/', 'node_modules/', 'shared/'] },
  js.configs.recommended,
  {
    files: ['**/*.{ts,tsx}'],
    extends: [tseslint.configs.strictTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    linterOptions: { noInlineConfig: true, reportUnusedDisableDirectives: 'error' },
    rules: {
      eqeqeq: 'error',
      'no-param-reassign': 'error',
      'no-undef': 'off',
      '@typescript-eslint/consistent-type-assertions': ['error', { assertionStyle: 'never' }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unnecessary-condition': [
        'error',
        { allowConstantLoopConditions: 'only-allowed-literals' },
      ],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
    },
  },
  {
    files: REPRODUCIBLE,
    ignores: SHOWN,
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: `MemberExpression[object.name="Math"]:not([property.name=/^(${EXACT_MATH})$/])`,
          message: 'Engines differ in the last bits of this: use src/chance/elementary.ts.',
        },
        {
          selector: ':matches(BinaryExpression[operator="**"], AssignmentExpression[operator="**="])',
          message: 'Engines differ in the last bits of **: use src/chance/elementary.ts.',
        },
        {
          selector: 'VariableDeclarator[init.name="Math"]',
          message: 'Name the function at its call, so that this check sees it.',
        },
      ],
    },
  },
  {
    files: PURE,
    ignores: MACHINE,
    rules: {
      'no-restricted-globals': [
        'error',
        ...['Date', 'process', 'performance', 'console', 'crypto', 'setTimeout', 'setInterval', 'setImmediate'].map(
          (name) => ({ name, message: 'Kernel to execution know neither the machine nor its clock.' }),
        ),
      ],
      'no-restricted-imports': [
        'error',
        { patterns: [{ regex: '^node:', message: 'Kernel to execution run in a browser.' }] },
      ],
    },
  },
  {
    files: ['tests/**/*.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          // A list that is written down, here or as a constant, is seen not to be empty.
          selector:
            'ForOfStatement[await=false]:has(CallExpression[callee.name="expect"]):not([right.callee.name=/^(nonEmpty|perhapsNone)$/])' +
            ':not([right.type=/^(ArrayExpression|TSAsExpression)$/]):not([right.name=/^[A-Z_]+$/])' +
            ':not([right.callee.object.type="ArrayExpression"])',
          message: 'This asserts nothing of an empty list: go over nonEmpty(list), or perhapsNone(list).',
        },
        {
          selector:
            'CallExpression[callee.name="expect"] > CallExpression.arguments[callee.property.name="every"]' +
            ':not([callee.object.callee.name=/^(nonEmpty|perhapsNone)$/])',
          message: 'This holds of an empty list: ask nonEmpty(list), or perhapsNone(list).',
        },
      ],
    },
  },
  {
    // Generators are the kernel's processes: one that only calls others, or never sleeps, is sound.
    files: ['src/kernel/**/*.ts', 'src/campaign/**/*.ts', 'tests/**/*.ts'],
    rules: { 'require-yield': 'off' },
  },
  {
    files: ['*.js', '*.cjs', 'tests/**/*.js', '.ci/**/*.js'],
    languageOptions: {
      globals: {
        module: 'writable',
        process: 'readonly',
        console: 'readonly',
        URL: 'readonly',
        performance: 'readonly',
      },
    },
  },
);
