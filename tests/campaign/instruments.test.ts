import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { HOPPING, laidOver, pass } from '../support/scene.js';
import { play } from '../support/stage.js';

const TWO: Raw = { instruments: 2, plan: { regions: 3 } };
const steps = (lines: readonly string[]) => lines.filter((line) => !line.includes('*'));

describe('several instruments', () => {
  it('have the regions dealt out in turn, each with tips of its own, and share the operators by arrival, then number', () => {
    const { minutes, outcome } = play(TWO);
    expect(steps(minutes.lines(0))).toEqual([
      'Mon 00:00 setUp',
      'Mon 00:10 warmUp',
      'Mon 00:15 waiting for the operator',
      'Mon 00:20 locate',
      'Mon 00:24 approach',
      'Mon 00:25 scan 1',
      'Mon 00:35 review',
      'Mon 00:35 retract',
      'Mon 00:36 locate',
      'Mon 00:40 approach',
      'Mon 00:41 scan 3',
      'Mon 00:51 review',
    ]);
    expect(steps(minutes.lines(1))).toEqual([
      'Mon 00:00 waiting for the operator',
      'Mon 00:10 setUp',
      'Mon 00:20 warmUp',
      'Mon 00:25 locate',
      'Mon 00:29 approach',
      'Mon 00:30 scan 2',
      'Mon 00:40 review',
    ]);
    expect(outcome.tipRecords.map(({ instrument, number }) => [instrument, number])).toEqual([
      [0, 0],
      [1, 0],
    ]);
    expect(outcome.elapsed).toEqual([51, 40].map((time) => 60e6 * time));
    expect(outcome).toMatchObject({ totalTime: 60 * 51, instrumentTime: 60 * 51, operatorTime: 60 * 32 });
  });

  it('have each a specimen of every sample that it images, and are each charged to their own end', () => {
    expect(play(laidOver(HOPPING, { instruments: 2, plan: { regions: 2 } })).outcome).toMatchObject({ specimens: 2 });
    const { outcome } = play(laidOver(TWO, { costs: { instrumentHour: '60 EUR' } }));
    expect(outcome.cost).toBeCloseTo(51 + 40, 9);
  });

  it('wait for nobody where there are operators enough', () => {
    const { minutes } = play({ ...TWO, operators: { count: 2 } });
    expect(minutes.names(0)).not.toContain('waiting for the operator');
    expect(minutes.names(1)[0]).toBe('setUp');
  });

  it('have each a time split that adds up to what elapsed, without anything twice', () => {
    const { outcome } = play(
      laidOver(laidOver(HOPPING, TWO), {
        bookings: { hours: 'Mo-Fr 09:00-10:00', unattended: 'scanning' },
        operators: { hours: 'Mo-Fr 09:00-09:50' },
        noticing: { review: { by: 'operator', time: '3 min' } },
      }),
    );
    outcome.split.forEach((row, i) => {
      expect(row.reduce((sum, time) => sum + time, 0)).toBe(outcome.elapsed[i]);
      expect(Math.min(...row)).toBeGreaterThanOrEqual(0);
    });
  });

  it('leave an operator who has been waited for to whoever came first, also for a manual retract', () => {
    const { minutes } = play({
      instruments: 3,
      plan: { regions: 6, passes: [pass('a', 10)] },
      workflows: { swap: { steps: { retract: { fixed: '6 min', manual: true }, setUp: '1 min', locate: '20 min' } } },
    });
    const served = minutes.steps
      .filter(({ step, start }) => ['setUp', 'locate', 'retract'].includes(step) && start > 60e6 * 20)
      .map(({ instrument, step }) => `${step} ${instrument + 1}`);
    // Locating from 6, 26 and 46 min on; the first asks for its retract at 37 min, the second at 57: both before any later locate.
    expect(served).toEqual([
      'locate 2',
      'locate 3',
      'retract 1',
      'retract 2',
      'locate 1',
      'retract 3',
      'locate 2',
      'locate 3',
    ]);
  });

  it('may be more than there are regions', () => {
    const { outcome } = play({ instruments: 3, plan: { regions: 2 } });
    expect(outcome).toMatchObject({ good: 2, isFinished: true });
    expect(outcome.elapsed[2]).toBe(0);
  });
});
