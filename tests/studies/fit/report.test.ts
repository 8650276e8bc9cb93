import { expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { numberText } from '../../../src/wording/numbers.js';
import { fitReport } from '../../../src/studies/fit/report.js';
import type { FitSummary } from '../../../src/studies/fit/results.js';
import { FEW_LIVES, fittedLog } from '../../support/fitted-log.js';
import { textsOf } from '../../support/report-texts.js';
import { nonEmpty } from '../../support/non-empty.js';

const itself = (text: string) => text;
const PLAIN = { strong: itself, quiet: itself, warning: itself };
const HOSTILE = '<img src=x onerror=alert(1)>: [=1+1](x) | *b* # "';

const shownOf = async (summary: FitSummary) => {
  const files = await textsOf(fitReport, summary);
  const hazards = files.get('hazards.yaml') ?? '';
  return {
    files,
    hazards,
    page: files.get('report.html') ?? '',
    methods: files.get('methods.md') ?? '',
    terminal: fitReport.text(summary, PLAIN, undefined, true),
  };
};

it('shows the numbers of the summary in the page, in the methods and in the terminal', async () => {
  const summary = fittedLog(FEW_LIVES);
  const { page, methods, terminal } = await shownOf(summary);
  const [{ median, hazard }] = summary.kinds[0].causes;
  if (median === null || hazard === null) throw new Error('nothing was fitted');
  for (const text of [page, methods, terminal])
    for (const value of [median.value, median.low, median.high]) expect(text).toContain(numberText(value ?? NaN));
  for (const text of [page, terminal]) expect(text).toContain(String(hazard.uncertainty.covariance[0][0]));
  for (const text of [page, methods]) expect(text).toContain('10 of 14');
});

it('warns where no last known sound use is in the log, and where an environment is not used', async () => {
  const [head, ...rows] = FEW_LIVES.split('\n');
  const log = [`${head},environment`, ...rows.map((row) => `${row},air`)].join('\n');
  const { page, terminal } = await shownOf(fittedLog(log));
  for (const text of nonEmpty([page, terminal].map((each) => each.replace(/\s+/gu, ' ')))) {
    expect(text).toContain('does not say when a tip was last known to be sound');
    expect(text).toContain('is not used in the fit');
  }
});

it('shows names of files and kinds as text, whatever is in them', async () => {
  const kind = HOSTILE.replaceAll('"', '""');
  const log = FEW_LIVES.replaceAll('sharp', `"${kind}"`);
  const { files, page, methods, terminal, hazards } = await shownOf(
    fittedLog(log, { file: `\u001b[31m${HOSTILE}\u0007.csv` }),
  );
  expect(page).not.toMatch(/<img/u);
  expect(page).toContain('&lt;img');
  expect(methods).not.toMatch(/<img|(?<!\\)\[=1/u);
  for (const text of [page, methods, terminal, hazards, files.get('charts/survival.svg') ?? ''])
    expect(text.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  const document = parseDocument(hazards);
  expect(document.errors).toEqual([]);
  // No scenario takes such a name for a kind.
  expect(document.hasIn(['tips', HOSTILE])).toBe(false);
});

it('is the same to the byte when it is made twice', async () => {
  const make = async () => [...(await textsOf(fitReport, fittedLog(FEW_LIVES, { samples: 2 })))];
  expect(await make()).toEqual(await make());
});
