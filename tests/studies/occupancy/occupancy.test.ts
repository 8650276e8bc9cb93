import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { mean } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../../src/chance/luck.js';
import { replicate, runnable } from '../../../src/execution/replicate.js';
import { MOST_SESSIONS, occupancy } from '../../../src/studies/occupancy/occupancy.js';
import type { Session } from '../../../src/studies/occupancy/results.js';
import { root } from '../../support/command.js';
import { loadedFrom } from '../../support/known-break-even.js';
import { nonEmpty } from '../../support/non-empty.js';

const RECORD = { file: 'a.yaml', sha256: '0', toolVersion: '0', seed: 'occupancy', replications: 40 };

const textOf = (file: string) => readFileSync(join(root, file), 'utf8');
const islands = textOf('scenarios/ambient-islands.yaml');
const small = textOf('tests/support/small.yaml');
const sum = (numbers: readonly number[]) => numbers.reduce((total, each) => total + each, 0);
/** Seconds of a session that are used. */
const usedIn = ({ booked, uses }: Session) =>
  booked * sum(uses.map(({ use, value }) => (use === 'no longer needed' ? 0 : value)));

describe('what booked hours go to', () => {
  const scenario = loadedFrom(islands);
  const { strategies } = occupancy(scenario, RECORD);

  it('adds up to all of them in every session', () => {
    const totals = strategies.flatMap(({ sessions }) =>
      sessions.map(({ uses }) => sum(uses.map(({ value }) => value))),
    );
    expect(totals.length).toBeGreaterThan(3);
    for (const total of nonEmpty(totals)) expect(total).toBeCloseTo(1, 9);
  });

  it('comes, all sessions together, to the mean instrument time of the same campaigns', () => {
    const table = new LuckTable(RECORD.seed);
    for (const [place, strategy] of nonEmpty(runnable(scenario.strategies).entries())) {
      const times = Array.from({ length: RECORD.replications }, (_, i) => replicate(strategy, table, i + 1));
      const expected = mean(times.map(({ instrumentTime }) => instrumentTime));
      expect(sum(strategies[place].sessions.map(usedIn))).toBeCloseTo(expected, 4);
    }
  });

  it('says by when each session ends on the clock, and that ever fewer campaigns need it', () => {
    for (const { sessions } of nonEmpty(strategies)) {
      expect(sessions.map(({ until }) => until.slice(-5))).toEqual(sessions.map(() => '17:00'));
      expect(sessions[0].needed.value).toBe(1);
      const needed = sessions.map(({ needed: { value } }) => value);
      expect(needed).toEqual([...needed].sort((a, b) => b - a));
    }
  });
});

it('counts every 24 hours as a session where nothing is booked, and says of how many it does not tell', () => {
  const long = small.replace('regions: 3', 'regions: 5000').replace('  - { name: hop, workflow: hop }\n', '');
  const { strategies, warnings } = occupancy(loadedFrom(long), { ...RECORD, replications: 2 });
  const [{ sessions }] = strategies;
  expect(sessions).toHaveLength(MOST_SESSIONS);
  for (const session of nonEmpty(sessions)) {
    expect(session.booked).toBe(86_400);
    expect(usedIn(session)).toBeCloseTo(86_400, 4);
  }
  expect(warnings.join()).toMatch(/campaigns of swap by hand take up to \d+ sessions; the first 20 are told/);
});

it('takes the hours of several instruments together, each of them used once', () => {
  const { strategies } = occupancy(loadedFrom(`${small}instruments: 2\n`), RECORD);
  for (const { sessions } of nonEmpty(strategies)) {
    const [{ booked, uses }] = sessions;
    expect(booked).toBe(2 * 86_400);
    expect(sum(uses.map(({ value }) => value))).toBeCloseTo(1, 9);
    expect(usedIn(sessions[0])).toBeGreaterThan(0);
  }
});
