import { describe, expect, it } from 'vitest';
import { hazardPrior } from '../../../src/studies/fit/prior.js';
import { writeInto } from '../../../src/studies/fit/into.js';
import { fitAnswer } from '../../../src/studies/fit/report-words.js';
import { fittedLog } from '../../support/fitted-log.js';
import { loadedOf } from '../../support/run.js';

/** A scenario whose sharp tips break with this life. */
function scenario(life: string, more = ''): string {
  return `title: Three regions
plan:
  regions: 3
  passes:
    - { name: islands, tip: sharp, size: 1 um, lines: 64 }
tips:
  sharp:
    hazards:
      - { cause: breakage, per: image, life: ${life}${more} }
workflows:
  hop:
    chip: { sites: { sharp: 20 } }
strategies:
  - { name: swap by hand, workflow: swap }
  - { name: hop, workflow: hop }
`;
}

function log(broken: readonly number[], sound: readonly number[]): string {
  const rows = [...broken.map((images) => [images, 'breakage']), ...sound.map((images) => [images, 'sound'])];
  return ['tip,kind,images,ended', ...rows.map((row, i) => `${i},sharp,${row.join(',')}`)].join('\n');
}

function updatedBy(text: string, table: string) {
  const loaded = loadedOf(text);
  const summary = fittedLog(table, {
    unitBefore: () => 'image',
    priorOf: (kind, cause) => hazardPrior(loaded, kind, cause),
  });
  const written = writeInto(text, summary);
  if (!written.ok) throw new Error(written.messages.join('; '));
  return { summary, text: written.text, fit: summary.kinds[0].causes[0] };
}

const RANGED = scenario(
  '{ distribution: exponential, mean: 60 images }',
  ', uncertainty: { range: { mean: [20 images, 180 images] } }',
);

describe('a scenario’s range and a log', () => {
  it('make a posterior between the two, which goes into the scenario with the range kept', () => {
    const { fit, text } = updatedBy(RANGED, log([100, 140], [120, 160]));
    // Alone the log says 520 images over 2 events.
    const mean = fit.posterior?.parameters[0];
    expect(mean?.value).toBeGreaterThan(60);
    expect(mean?.value).toBeLessThan(260);
    expect(mean?.before).toEqual({ low: 20, high: 180 });
    expect(text).toMatch(/prior: \{ mean: \[ ?20 images, 180 images ?\] \}/);
    expect(text).toContain('with the range held before it');
  });

  it('give the same once more, and begin with the same range when the log has grown', () => {
    const few = log([100, 140], [120, 160]);
    const more = log([100, 140, 90, 110, 130], [120, 160]);
    const once = updatedBy(RANGED, few);
    expect(updatedBy(once.text, few).text).toBe(once.text);
    expect(updatedBy(once.text, more).text).toBe(updatedBy(RANGED, more).text);
  });

  it('move the range up where many tips ended otherwise or not at all, which alone says nothing', () => {
    const { fit, text } = updatedBy(RANGED, log([], [120, 160, 140]));
    const mean = fit.posterior?.parameters[0];
    expect(fit.events).toBe(0);
    expect(mean?.low).toBeGreaterThan(20);
    expect(mean?.value).toBeGreaterThan(60);
    expect(fit.warnings.join()).toContain('no event of breakage');
    expect(text).toContain('3 tips, 0 events, with the range held before it');
    expect(fittedLog(log([], [120, 160, 140])).kinds[0].causes).toEqual([]);
  });

  it('make one event a hazard, which alone it is not', () => {
    const one = log([50], [40, 60]);
    expect(updatedBy(RANGED, one).fit.hazard).not.toBeNull();
    const alone = fittedLog(one).kinds[0].causes[0];
    expect(alone.hazard).toBeNull();
    expect(alone.warnings.join()).toContain('1 event of breakage gives no hazard alone');
  });

  it('take the range of a probability for that of the mean life it comes to', () => {
    const { fit } = updatedBy(
      scenario('{ distribution: probability, perUnit: 0.02 }', ', uncertainty: { range: { perUnit: [0.01, 0.05] } }'),
      log([50], [40, 60]),
    );
    expect(fit.posterior?.distribution).toBe('exponential');
    expect(fit.posterior?.parameters[0].before.low).toBeCloseTo(-1 / Math.log(0.95), 3);
    expect(fit.posterior?.parameters[0].before.high).toBeCloseTo(-1 / Math.log(0.99), 3);
  });

  it('leave the log alone where it has enough events of another distribution', () => {
    const alike = [48, 49, 50, 50.5, 51, 51.5, 52, 53];
    const { fit } = updatedBy(RANGED, log(alike, []));
    expect(fit.chosen?.distribution).not.toBe('exponential');
    expect(fit.posterior).toBeNull();
    expect(fit.hazard?.distribution).toBe(fit.chosen?.distribution);
  });

  it('are told with the range before and the interval after', () => {
    const { summary } = updatedBy(RANGED, log([100, 140], [120, 160]));
    expect(fitAnswer(summary).findings.join('\n')).toMatch(
      /Breakage of sharp, per image: mean .* held before 20 to 180 \(range as lognormal, put together with 2 events\)/u,
    );
  });
});

describe('few events', () => {
  it('say “at least” where the upper end lies beyond all use that was watched', () => {
    const { median, constantHazard, exposure } = fittedLog(log([30, 50], [40, 60])).kinds[0].causes[0];
    expect(exposure).toBe(180);
    expect(median?.high).toBeNull();
    expect(constantHazard.high).toBeNull();
    expect(median?.low).toBeGreaterThan(0);
  });

  it('leave rows used, left out and faulty, which make up all rows', () => {
    const table = `${log([30, 50], [40])}\n7,blunt,30,breakage\n8,sharp,0,breakage\n`;
    const { log: read } = fittedLog(table, {}, new Map([['blunt', '']]));
    expect([read.rows, read.used, read.leftOut, read.notUsed.length]).toEqual([5, 3, 1, 1]);
  });
});
