import { expect, it } from 'vitest';
import { driftFitReport } from '../../../src/studies/fit/drift/report.js';
import { driftHead, driftRows, driftTable, fittedDrift, MADE_DRIFT, madeDrift } from '../../support/made-drift.js';
import { driftShown } from '../../support/drift-shown.js';
import { textsOf } from '../../support/report-texts.js';
import { nonEmpty } from '../../support/non-empty.js';

const table = (events: Parameters<typeof driftRows>[0], head = driftHead('rate')) =>
  fittedDrift([head, ...driftRows(events, 'handling')].join('\n'));
const flat = (text: string) => text.replace(/\s+/gu, ' ');

it('says in plain words what the readings do not tell', async () => {
  const still = madeDrift('rate', 'drift alike', 1, 12, { ...MADE_DRIFT, geometricSd: 1, steady: 0 });
  const { page, terminal } = await driftShown(table(still));
  for (const text of nonEmpty([page, terminal].map(flat))) {
    expect(text).toContain('There is no clear steady rate; it is at most');
    expect(text).toContain('the geometric standard deviation is not clearly above 1, and at most 1.');
  }
  const two = await driftShown(table(still.slice(0, 2)));
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

it('is the same to the byte when it is made twice', async () => {
  const make = async () => [...(await textsOf(driftFitReport, fittedDrift(driftTable('rate', 4))))];
  expect(await make()).toEqual(await make());
});
