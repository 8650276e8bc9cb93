import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { lognormalAt, normalQuantile } from '../../src/chance/normal.js';
import { SECOND } from '../../src/kernel/clock.js';
import { Drift } from '../../src/probe/drift.js';
import { fitDriftTable, type DriftFitOptions } from '../../src/studies/fit/drift/fit-drift.js';
import { readDrift } from '../../src/studies/fit/drift/read-drift.js';
import type { DriftFitSummary } from '../../src/studies/fit/drift/results.js';
import { type DriftFit, fitDrift } from '../../src/survival/drift-fit.js';
import type { DriftEvent, DriftForm } from '../../src/survival/drift-likelihood.js';

export const MADE_DRIFT = { rate: 1, geometricSd: 1.5, decay: 600, steady: 0.03 };
/** Readings every 4 min over 40 min, the first a minute after the disturbance. */
export const DRIFT_TIMES = Array.from({ length: 11 }, (_, i) => 60 + 240 * i);
export const DRIFT_ERRORS: Readonly<Record<DriftForm, number>> = { rate: 0.02, displacement: 5 };

/** Readings as the simulator's own drift gives them, with a normal error each. */
export function madeDrift(
  form: DriftForm,
  seed: string,
  sample: number,
  count: number,
  law = MADE_DRIFT,
): readonly DriftEvent[] {
  const luck = new LuckTable(seed).replication(sample);
  const draw = (event: number, reading: number) => luck.uniform(PURPOSES.logBootstrap, event, reading, 0, 0);
  return Array.from({ length: count }, (_, event) => {
    const drift = new Drift({ decay: { handling: law.decay, move: law.decay }, steady: law.steady });
    drift.disturb('handling', lognormalAt(law.rate, law.geometricSd, draw(event, 0)), 0);
    const exact = (time: number) =>
      form === 'rate' ? drift.rateAt(time * SECOND) : drift.displacement(DRIFT_TIMES[0] * SECOND, time * SECOND);
    const values = DRIFT_TIMES.map((time, i) => exact(time) + DRIFT_ERRORS[form] * normalQuantile(draw(event, i + 1)));
    return { times: DRIFT_TIMES, values };
  });
}

/** What readings come to, with intervals of 95 %. */
export function fittedEvents(events: readonly DriftEvent[], form: DriftForm): DriftFit {
  const fit = fitDrift(events, form, 0.95);
  if (!fit.converged) throw new Error(`no fit: ${fit.reason}`);
  return fit;
}

/** Rows of a table of drift: a name, the kind, seconds, the reading. */
export function driftRows(events: readonly DriftEvent[], kind: string): readonly string[] {
  return events.flatMap(({ times, values }, event) =>
    times.map((time, i) => `${kind} ${String(event + 1)},${kind},${String(time)},${String(values[i])}`),
  );
}

export function driftHead(form: DriftForm): string {
  return `disturbance,kind,time [s],${form} [${form === 'rate' ? 'nm/s' : 'nm'}]`;
}

/** A table of readings after handling, and after moves a fifth as fast and three times as short. */
export function driftTable(form: DriftForm, count = 10): string {
  const moved = { ...MADE_DRIFT, rate: 0.2, decay: 200 };
  return [
    driftHead(form),
    ...driftRows(madeDrift(form, 'table', 1, count), 'handling'),
    ...driftRows(madeDrift(form, 'table', 2, count, moved), 'move'),
  ].join('\n');
}

/** The third table of `scenarios/logs/`: displacements after exchanges by hand and after offsets, as somebody writes them down. */
export function madeDriftReadings(): string {
  const rows = (word: string, sign: string, events: readonly DriftEvent[], every: number) =>
    events.flatMap(({ times, values }, event) =>
      times.map((time, i) =>
        [`${sign}${String(event + 1)}`, word, String((time * every) / 60), values[i].toFixed(1)].join(','),
      ),
    );
  const moved = { ...MADE_DRIFT, rate: 0.8, decay: 720 };
  return `${[
    'disturbance,kind,time [min],displacement [nm]',
    ...rows('exchange', 'E', madeDrift('displacement', 'shipped', 1, 8), 1),
    // Four times as fast: the way is a quarter.
    ...rows('offset', 'O', madeDrift('displacement', 'shipped', 2, 12, moved).map(quarter), 0.25),
  ].join('\n')}\n`;
}

function quarter({ times, values }: DriftEvent): DriftEvent {
  return { times, values: values.map((value) => value / 4) };
}

/** What a table comes to. */
export function fittedDrift(text: string, options: Partial<DriftFitOptions> = {}): DriftFitSummary {
  const reading = readDrift(text, { columns: new Map(), units: new Map() });
  if (!reading.ok)
    throw new Error(`the table cannot be read: ${reading.faults.map(({ message }) => message).join('; ')}`);
  return fitDriftTable(reading.log, {
    file: 'readings.csv',
    sha256: '0',
    toolVersion: '0',
    date: null,
    settling: 1200,
    workflows: ['swap', 'hop'],
    ...options,
  });
}
