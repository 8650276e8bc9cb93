import js from '@eslint/js';
import tseslint from 'typescript-eslint';

/** Kernel to campaign give the same bytes on any machine, so they keep to arithmetic that every engine rounds alike. */
// Constants are exact too.
const EXACT_MATH = 'sqrt|floor|ceil|imul|min|max|abs|PI|SQRT2';
const REPRODUCIBLE = ['kernel', 'chance', 'statistics', 'survival', 'scenario', 'probe', 'campaign'].map(
  (layer) => `src/${layer}/**/*.ts`,
);

export default tseslint.config(
  { ignores: ['dist/', 'coverage/', 'reports/', 'node_modules/', 'shared/'] },
  js.configs.recommended,
  {
    files: ['**/*.ts'],
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
    rules: {
      'no-restricted-globals': [
        'error',
        ...['Date', 'process', 'performance', 'console', 'crypto', 'setTimeout', 'setInterval', 'setImmediate'].map(
          (name) => ({ name, message: 'Kernel to campaign know neither the machine nor its clock.' }),
        ),
      ],
      'no-restricted-imports': [
        'error',
        { patterns: [{ regex: '^node:', message: 'Kernel to campaign run in a browser.' }] },
      ],
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
