import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { LoadedScenario } from '../../src/scenario/load.js';
import type { Segment } from '../../src/analysis/results.js';
import { traceReplication } from '../../src/analysis/trace.js';
import { root } from '../support/command.js';
import { loadedOf } from '../support/run.js';

/**
 * Common practice, no source: exchanging a probe by hand and finding the place again takes an ordinary operator about
 * ten minutes in air, before any wait for drift, and several hours in ultra-high vacuum, with that wait; an offset to a
 * neighbouring tip takes seconds.
 *
 * Means over 150 replications, so over some hundreds of exchanges of which the times scatter by about a third: the
 * bounds lie more than ten standard errors from the means, so a false alarm has a chance far below one in a million;
 * the seed is fixed anyway.
 */
const REPLICATIONS = 150;
const MINUTE = 60;
const HOUR = 3600;

function load(file: string): LoadedScenario {
  return loadedOf(readFileSync(join(root, file), 'utf8'));
}

/** Steps of one strategy, replication by replication, without scans. */
function stepsOf(scenario: LoadedScenario, strategy: string): readonly (readonly Segment[])[] {
  return Array.from(
    { length: REPLICATIONS },
    (_, index) => traceReplication(scenario, strategy, index + 1).timeline.segments,
  );
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const seconds = ({ start, end }: Segment) => end - start;

/** Seconds of work from each first exchange of a probe to the next scan; waiting for people and bookings, and `apart`, left out. */
function exchanges(segments: readonly Segment[], apart: readonly string[] = []): readonly number[] {
  const times: number[] = [];
  let sum: number | null = null;
  let found = false;
  for (const segment of segments) {
    if (segment.step === 'exchange the probe') sum ??= 0;
    if (segment.step === 'relocate') found = true;
    if (sum !== null && !segment.activity.startsWith('waiting') && !['scan', ...apart].includes(segment.step))
      sum += seconds(segment);
    if (segment.step === 'scan') {
      if (sum !== null && found) times.push(sum);
      [sum, found] = [null, false];
    }
  }
  return times;
}

describe('in the scenarios that come with it, the simulator agrees with common practice', () => {
  it('by hand in air an exchange and finding the place again take about ten minutes before settling', () => {
    const times = stepsOf(load('scenarios/ambient-islands.yaml'), 'swap by hand').flatMap((segments) =>
      exchanges(segments, ['settle']),
    );
    expect(times.length).toBeGreaterThan(200);
    expect(mean(times)).toBeGreaterThan(8 * MINUTE);
    expect(mean(times)).toBeLessThan(15 * MINUTE);
  });

  it('by hand in ultra-high vacuum they take several hours with settling', () => {
    const times = stepsOf(load('scenarios/vacuum-terraces.yaml'), 'swap (at once)').flatMap((segments) =>
      exchanges(segments),
    );
    expect(times.length).toBeGreaterThan(100);
    expect(mean(times)).toBeGreaterThan(2.5 * HOUR);
    expect(mean(times)).toBeLessThan(8 * HOUR);
  });

  it('an offset to a neighbouring tip takes seconds', () => {
    const offsets = stepsOf(load('scenarios/ambient-islands.yaml'), 'hop')
      .flat()
      .filter(({ step }) => step === 'offset to a site')
      .map(seconds);
    expect(offsets.length).toBeGreaterThan(200);
    expect(mean(offsets)).toBeGreaterThan(3);
    expect(mean(offsets)).toBeLessThan(30);
  });
});
