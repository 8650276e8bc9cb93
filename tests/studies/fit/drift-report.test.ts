import { expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { numberText } from '../../../src/wording/numbers.js';
import { driftFitReport } from '../../../src/studies/fit/drift/report.js';
import type { DriftFitSummary } from '../../../src/studies/fit/drift/results.js';
import { driftHead, driftRows, driftTable, fittedDrift, MADE_DRIFT, madeDrift } from '../../support/made-drift.js';
import { textsOf } from '../../support/report-texts.js';
import { nonEmpty } from '../../support/non-empty.js';

const itself = (text: string) => text;
const PLAIN = { strong: itself, quiet: itself, warning: itself };
const HOSTILE = '<img src=x onerror=alert(1)>: [=1+1](x) | *b* # "';

const shownOf = async (summary: DriftFitSummary) => {
  const files = await textsOf(driftFitReport, summary);
  const drift = files.get('drift.yaml') ?? '';
  return {
    files,
    drift,
    page: files.get('report.html') ?? '',
    methods: files.get('methods.md') ?? '',
    terminal: driftFitReport.text(summary, PLAIN, undefined, true),
  };
};

const table = (events: Parameters<typeof driftRows>[0], head = driftHead('rate')) =>
  fittedDrift([head, ...driftRows(events, 'handling')].join('\n'));
const flat = (text: string) => text.replace(/\s+/gu, ' ');

it('shows the numbers of the summary in the page, in the methods and in the terminal', async () => {
  const summary = fittedDrift(driftTable('displacement'));
  const { page, methods, terminal } = await shownOf(summary);
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

it('says in plain words what the readings do not tell', async () => {
  const still = madeDrift('rate', 'drift alike', 1, 12, { ...MADE_DRIFT, geometricSd: 1, steady: 0 });
  const { page, terminal } = await shownOf(table(still));
  for (const text of nonEmpty([page, terminal].map(flat))) {
    expect(text).toContain('There is no clear steady rate; it is at most');
    expect(text).toContain('the geometric standard deviation is not clearly above 1, and at most 1.');
  }
  const two = await shownOf(table(still.slice(0, 2)));
  for (const text of nonEmpty([two.page, two.terminal].map(flat)))
    expect(text).toContain('After handling nothing could be fitted: three disturbances at least are wanted');
  expect(two.drift).toBe('# nothing could be fitted\n');
});

it('warns of readings that go the other way, end early, begin late, stand alone, or do not say what disturbed', () => {
  const events = madeDrift('displacement', 'warned', 1, 6);
  const warningsOf = (some: typeof events, head = driftHead('displacement')) => {
    const { kinds, warnings } = table(some, head);
    return [...warnings, ...kinds.flatMap((fit) => fit.warnings)].join('; ');
  };
  expect(warningsOf(events)).toBe('');
  expect(warningsOf(events, driftHead('displacement').replace('kind', 'note'))).toContain('all is taken as handling');
  const one = events.with(2, { times: [60], values: [0] });
  expect(warningsOf(one)).toContain('1 disturbance of handling with one displacement alone');
  const back = events.with(1, { times: events[1].times, values: events[1].values.map((value) => -value) });
  expect(warningsOf(back)).toMatch(/readings of 1 disturbance of handling go the other way .*`handling 2`/);
  const part = (from: number, to: number) =>
    events.map(({ times, values }) => ({ times: times.slice(from, to), values: values.slice(from, to) }));
  expect(warningsOf(part(0, 5))).toContain('end before the drift has decayed');
  expect(warningsOf(part(4, 11))).toContain('the rate right after is an extrapolation');
  expect(warningsOf(events.slice(0, 4))).toContain('only 4 disturbances of handling');
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
  const { files, page, methods, terminal, drift } = await shownOf(summary);
  expect(page).not.toMatch(/<img/u);
  expect(page).toContain('&lt;img');
  expect(methods).not.toMatch(/<img|(?<!\\)\[=1/u);
  expect(files.get('charts/drift.svg')).not.toMatch(/<img/u);
  for (const each of [page, methods, terminal, drift, files.get('charts/drift.svg') ?? ''])
    expect(each.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  expect(parseDocument(drift).errors).toEqual([]);
});

it('is the same to the byte when it is made twice', async () => {
  const make = async () => [...(await textsOf(driftFitReport, fittedDrift(driftTable('rate', 4))))];
  expect(await make()).toEqual(await make());
});
