import { parse as parseCsv } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { compileModel } from '../../src/campaign/model.js';
import { budgetReport } from '../../src/studies/budget/report.js';
import { csv } from '../../src/report/csv.js';
import { driftFitReport } from '../../src/studies/fit/drift/report.js';
import { fitReport } from '../../src/studies/fit/report.js';
import { terminalText } from '../../src/studies/compare/terminal.js';
import { lineJson, prettyJson } from '../../src/report/json.js';
import { previewText } from '../../src/report/preview.js';
import { loadScenario } from '../../src/scenario/load.js';
import { budget } from '../../src/studies/budget/budget.js';
import { compare } from '../../src/studies/compare/compare.js';
import { previewScenario } from '../../src/analysis/preview.js';
import { harmless } from '../../src/scenario/harmless.js';
import { fittedLog } from '../support/fitted-log.js';
import { fittedDrift } from '../support/made-drift.js';
import { reportTexts, textsOf } from '../support/report-texts.js';
import { ACTING, harmlessFiles } from './files.js';
import { ALL, HOSTILE, hostileDrift, hostileLog, hostileScenario } from './words.js';
import { nonEmpty } from '../support/non-empty.js';

const STYLES = { strong: String, quiet: String, warning: String };
const loaded = loadScenario(hostileScenario());
if (!loaded.ok) throw new Error(loaded.faults.map(({ message }) => message).join('\n'));
const { scenario } = loaded;
const record = {
  file: `${ALL.slice(0, 200)}.yaml`,
  sha256: '0',
  toolVersion: '0',
  command: `swap-or-hop compare '${ALL}'`,
};
const compared = compare(scenario, { ...record, warnings: [ALL], replications: 2 });
const asked = budget(scenario, { ...record, warnings: [ALL], replications: 100 });
const fitted = fittedLog(hostileLog(), record);
const drifted = fittedDrift(hostileDrift(), record);

const REPORTS = {
  compare: () => reportTexts(compared),
  budget: () => textsOf(budgetReport, asked),
  fit: () => textsOf(fitReport, fitted),
  'fit --drift': () => textsOf(driftFitReport, drifted),
};

describe.each(Object.entries(REPORTS))('the report of %s on hostile words', (_, write) => {
  harmlessFiles(async () => [...(await write())]);
});

describe('hostile words on a terminal', () => {
  it('act in no table or text of a command', () => {
    for (const text of [
      terminalText(compared.summary),
      budgetReport.text(asked, STYLES),
      fitReport.text(fitted, STYLES),
      driftFitReport.text(drifted, STYLES),
      previewText(previewScenario(scenario)),
    ])
      expect(ACTING.exec(harmless(text, false))).toBeNull();
  });

  it('are written out where a message repeats them; only tones of our own pass', () => {
    expect(harmless('a\u001b[31mb\u009b\u202e\u2028\tc\nd', false)).toBe(
      'a\\u{1b}[31mb\\u{9b}\\u{202e}\\u{2028}\tc\nd',
    );
    expect(harmless('a,b\r\nc\rd', false)).toBe('a,b\r\nc\\u{d}d');
    expect(harmless('\u001b[31mred\u001b[39m \u001b[2J\u001b]8;;x\u0007', true)).toBe(
      '\u001b[31mred\u001b[39m \\u{1b}[2J\\u{1b}]8;;x\\u{7}',
    );
  });
});

describe('hostile words as data', () => {
  it('read back from JSON as they were, though none of their signs stands there bare', () => {
    for (const text of [prettyJson({ [ALL]: [ALL, { a: ALL }] }), lineJson({ ALL })]) {
      expect(text).not.toMatch(/(?![\n])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
      expect(JSON.stringify(JSON.parse(text))).toContain(JSON.stringify(ALL));
    }
  });

  it('are text in every cell of a table, also for a program that parts cells at semicolons; numbers stay numbers', () => {
    for (const word of HOSTILE) {
      const [[cell = '']] = parseCsv(csv([[word]]), { relax_quotes: true });
      expect(cell).toMatch(/^(?![=+@\t\r-])/u);
      for (const part of nonEmpty(cell.split(/[;\t]/u))) expect(part).toMatch(/^\s*(?![=+@-])/u);
    }
    expect(csv([[-1.5, 2, '-1.5']])).toBe("-1.5,2,'-1.5\r\n");
  });

  it('never become a prototype', () => {
    for (const key of ['__proto__', 'constructor', 'prototype']) {
      const read = loadScenario(`title: x\nsources: { "${key}": { polluted: 1 } }\n`);
      expect(read.ok).toBe(false);
    }
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
    expect(compileModel(scenario.strategies[0].workflow, scenario.strategies[0].settings).images).toHaveLength(2);
  });
});
