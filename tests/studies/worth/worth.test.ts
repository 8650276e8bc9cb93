import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../../src/chance/elementary.js';
import { runInProcess } from '../../../src/execution/in-process.js';
import { loadScenario, type LoadedScenario } from '../../../src/scenario/load.js';
import { worthWork } from '../../../src/studies/worth/worth.js';
import { nonEmpty } from '../../support/non-empty.js';
import { said } from '../../support/said.js';
import { sourced } from '../../support/sourced.js';

const EXCHANGE = 'workflows.swap.steps.exchange';

/**
 * Four images, each on a new tip, nothing ever fails: swapping exchanges three times in an uncertain time x, hopping takes h for
 * each, which is known. All else has a source.
 */
function scenario(x: string, range: string, h: string): string {
  const still = (steps: string) => `{ warmUp: 0 min, setUp: 1 min, locate: 0 min, ${steps} }`;
  return `title: Four images
plan:
  regions: 4
  passes:
    - { name: islands, tip: sharp, size: 1 um, lines: 64 }
tips:
  sharp: { hazards: [] }
rules: { after: 1 image }
noticing: { review: { by: nobody } }
workflows:
  swap:
    mishandling: { probability: 0 }
    steps: ${still(`retract: 0 min, exchange: ${x}, align: 0 min, resonance: 0 min, approach: 0 min, relocate: { fixed: 0 min, success: 1 }, settle: 0 min`)}
  hop:
    mishandling: { probability: 0 }
    specimenLoss: 0
    chip: { sites: { sharp: 20 }, dead: { sharp: 0 } }
    steps: ${still(`prepare: { fixed: 0 min, success: 1 }, retract: 0 min, offset: ${h}, coarseMove: 0 min, approach: 0 min, resonance: 0 min, settle: 0 min, register: { fixed: 0 min, success: 1 }`)}
strategies:
  - { name: swap by hand, workflow: swap }
  - { name: hop, workflow: hop }
${sourced([EXCHANGE], { [EXCHANGE]: range })}`;
}

function loaded(text: string): LoadedScenario {
  const reading = loadScenario(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.scenario;
}

function worthOf(text: string, draws = 1000) {
  return runInProcess(worthWork(loaded(text), { file: 'a.yaml', sha256: '0', toolVersion: '0', draws }));
}

describe('worth', () => {
  const result = worthOf(scenario('60 min', '[30 min, 120 min]', '75 min'));

  it('is, of one uncertain step time, the closed form of a lognormal against a known amount', () => {
    // Three exchanges of exp(N(ln 60, s)) minutes against three moves of 75: E min(x, k) of a lognormal (as in Black’s formula).
    const s = Math.log(2) / 1.959964;
    const [m, k] = [Math.log(60), 75];
    const mean = Math.exp(m + (s * s) / 2);
    const least =
      mean * normalCdf((Math.log(k) - m - s * s) / s, 0, 1) + k * (1 - normalCdf((Math.log(k) - m) / s, 0, 1));
    const exact = (3 * (Math.min(mean, k) - least)) / 60;
    expect(exact).toBeGreaterThan(0.05);
    const [value] = result.values;
    expect(value.path).toBe('workflows.swap.steps.exchange');
    // The interval is of 95 %; the study's error is less than three of its half-widths but for a chance below one in a million.
    const halfWidth = (value.hours.high - value.hours.low) / 2;
    expect(Math.abs(value.hours.value - exact)).toBeLessThan(3 * halfWidth);
    expect(halfWidth).toBeLessThan(exact / 3);
    expect(result.chosen.byHours).toBe('swap by hand');
    expect(value.wrong).toBe(0);
    expect(Math.abs(result.wrongNow - (1 - normalCdf((Math.log(k) - m) / s, 0, 1)))).toBeLessThan(0.06);
    expect(value.indices.first).toBeGreaterThan(0.99);
  });

  it('gives to a timing of a step that always takes as long all that knowing it gives', () => {
    const timings = result.records.filter(({ what }) => what === 'timings');
    expect(timings.map(({ count }) => count)).toEqual([5, 10, 20, 50]);
    for (const { hours } of nonEmpty(timings)) expect(hours.value).toBeCloseTo(result.perfect.hours.value, 2);
  });

  it('says what to measure first in hours, with an interval, and that nothing else is worth anything', () => {
    expect(said(result.answer).join(' ')).toMatch(
      /^Make 10 timings of “Exchange .*” first: worth \d+ min a campaign \(95 % interval \d+ min to \d+ min\), for 10 min of writing down\. Nothing else alone is worth more than 0 min\./u,
    );
  });

  it('says to choose with what is known where no value could change the choice', () => {
    const sure = worthOf(scenario('20 min', '[18 min, 22 min]', '60 min'), 200);
    expect(sure.perfect.hours.value).toBe(0);
    expect(said(sure.answer)[0]).toMatch(/^Choose “swap by hand” with what is known/u);
  });

  it('is worth more the more tips are logged, and never more than knowing their hazards', () => {
    const text = scenario('20 min', '[19 min, 21 min]', '25 min')
      .replace(
        'hazards: []',
        'hazards: [{ cause: breakage, per: image, life: { distribution: exponential, mean: 3 images } }]',
      )
      .replace('{ after: 1 image }', '{ after: 50 images }')
      .replace('by: nobody', 'by: automatic, sensitivity: 1, falseAlarm: 0, time: 0 min')
      .replace('regions: 4', 'regions: 20')
      .replace('offset: 25 min', 'offset: 5 min')
      .replace('setUp: 1 min, locate: 0 min, prepare', 'setUp: 100 min, locate: 0 min, prepare')
      .replace('ranges:\n', 'ranges:\n  tips.sharp.hazards.breakage.life.mean: [1 image, 30 images]\n')
      .replace('  tips: this test\n', '');
    const { records, values } = worthOf(text, 600);
    const logged = records.filter(({ what }) => what === 'tips').map(({ hours }) => hours.value);
    const known = values.find(({ path }) => path === 'tips.sharp.hazards.breakage.life.mean')?.hours.value ?? 0;
    expect(known).toBeGreaterThan(0.1);
    expect(logged[3]).toBeGreaterThan(logged[0]);
    for (const value of nonEmpty(logged)) expect(value).toBeLessThan(1.1 * known);
  });
});
