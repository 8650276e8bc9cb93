import { expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { numberText } from '../../../src/wording/numbers.js';
import { driftTable, fittedDrift } from '../../support/made-drift.js';
import { driftShown } from '../../support/drift-shown.js';
import { nonEmpty } from '../../support/non-empty.js';

const HOSTILE = '<img src=x onerror=alert(1)>: [=1+1](x) | *b* # "';

const flat = (text: string) => text.replace(/\s+/gu, ' ');

it('shows the numbers of the summary in the page, in the methods and in the terminal', async () => {
  const summary = fittedDrift(driftTable('displacement'));
  const { page, methods, terminal } = await driftShown(summary);
  for (const { parameters, settled } of nonEmpty(summary.kinds)) {
    if (parameters === null || settled === null) throw new Error('nothing was fitted');
    const { rate, geometricSd, steady } = parameters;
    for (const text of [page, methods, terminal]) {
      for (const { value, low, high } of [rate, geometricSd, steady])
        for (const each of [value, low, high]) expect(text).toContain(numberText(each ?? NaN));
      expect(flat(text)).toContain(`${numberText(settled.typicalAverage.median)} nm/s as typical average`);
    }
  }
  for (const text of [page, methods]) expect(text).toContain('terms of ISO 11039');
});

it('shows names of files, columns and disturbances as text, whatever is in them', async () => {
  const quoted = `"${HOSTILE.replaceAll('"', '""')}"`;
  const text = driftTable('rate', 4)
    .replaceAll(/^(?=handling 1,|move 2,)/gmu, 'x')
    .replaceAll(/^xhandling 1(?=,)/gmu, quoted);
  const withHead = text.replace(/\n/u, `,${quoted}\n`);
  const summary = fittedDrift(withHead, {
    file: `\u001b[31m${HOSTILE}\u0007.csv`,
  });
  expect(summary.kinds[0].rates[0].disturbance).toBe(HOSTILE);
  expect(summary.log.unread).toEqual([HOSTILE]);
  const { files, page, methods, terminal, drift } = await driftShown(summary);
  expect(page).not.toMatch(/<img/u);
  expect(page).toContain('&lt;img');
  expect(methods).not.toMatch(/<img|(?<!\\)\[=1/u);
  expect(files.get('charts/drift.svg')).not.toMatch(/<img/u);
  for (const each of [page, methods, terminal, drift, files.get('charts/drift.svg') ?? ''])
    expect(each.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  expect(parseDocument(drift).errors).toEqual([]);
});
