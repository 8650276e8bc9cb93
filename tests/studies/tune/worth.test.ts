import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../../src/chance/normal.js';
import { tuneReport } from '../../../src/studies/tune/report.js';
import { NO_STYLES } from '../../../src/report/styles.js';
import { plainText } from '../../support/scene.js';
import { said } from '../../support/said.js';
import { tuned } from '../../support/tuned.js';
import { nonEmpty } from '../../support/non-empty.js';

const SOURCES = ['plan', 'tips', 'workflows', 'noticing', 'rules', 'stock', 'pace', 'costs', 'bookings', 'operators'];
const MEDIAN = 0.35;
const FACTOR = 2;
const IMAGES = 12;

/** Twelve images of a minute; how soon a tip breaks is known to a factor, and steeply faster with the pace of scanning. All else has a source. */
function scenario(low: number, high: number): string {
  const hazard = {
    cause: 'breakage',
    per: 'image',
    life: { distribution: 'exponential', mean: `${Math.sqrt(low * high)} images` },
    acceleration: { pace: 2 },
    uncertainty: { range: { mean: [`${low} images`, `${high} images`] } },
  };
  const sources = Object.fromEntries(SOURCES.map((path) => [path, 'this test']));
  const plain = plainText({ regions: IMAGES, hazards: [hazard] });
  return plain.replace(/\}$/u, `,"sources":${JSON.stringify(sources)}}`);
}

const ASKED = { vary: ['pace.scan=1, 1.4'], yieldAtLeast: 0, zone: 0.01, draws: 1000 } as const;

describe('the worth of knowing more before a setting is chosen', () => {
  const result = tuned(scenario(1 / MEDIAN / FACTOR, FACTOR / MEDIAN), ASKED);
  const { worth } = result;
  if (worth === null) throw new Error('no worth');

  /*
   * Known answer 5 of the model: at pace p and hazard h an image takes 60/p·exp(h·p²) s until it is good. Here h is lognormal, the
   * middle 95 % within a factor of two about 0.35, and what knowing it saves is min E T − E min T, summed over 4000 quantiles.
   */
  const hazards = Array.from(
    { length: 4000 },
    (_, i) => MEDIAN * FACTOR ** (normalQuantile((i + 0.5) / 4000) / 1.959964),
  );
  const times = [1, 1.4].map((pace) => hazards.map((h) => ((IMAGES * 60) / pace) * Math.exp(h * pace * pace)));
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const exact = Math.min(...times.map(mean)) - mean(hazards.map((_, i) => Math.min(times[0][i], times[1][i])));

  it('is that of quadrature for the one hazard that is not known', () => {
    expect(exact).toBeGreaterThan(20);
    expect(worth.values.map(({ path }) => path)).toEqual(['tips.tip.hazards.breakage']);
    // The interval is of 95 %; the error is less than three of its half-widths but for a chance below one in a million.
    for (const { saved } of nonEmpty([worth.perfect, worth.values[0]])) {
      const halfWidth = (saved.high - saved.low) / 2;
      expect(Math.abs(saved.value - exact)).toBeLessThan(3 * halfWidth);
      expect(halfWidth).toBeLessThan(exact / 2);
    }
    expect(worth.settings.map(({ settings }) => settings)).toEqual([[1], [1.4]]);
    expect(worth.chosen).toBe(times.map(mean).indexOf(Math.min(...times.map(mean))));
    worth.settings.forEach(({ goal }, place) => {
      expect(Math.abs(goal / mean(times[place]) - 1)).toBeLessThan(0.1);
    });
  });

  it('grows with the tips that are logged, and is never more than that of knowing', () => {
    const logged = worth.records.map(({ saved }) => saved.value);
    expect(worth.records.map(({ what, count }) => [what, count])).toEqual(
      [5, 10, 20, 50].map((count) => ['tips', count]),
    );
    expect(logged[3]).toBeGreaterThan(logged[0]);
    for (const value of nonEmpty(logged)) expect(value).toBeLessThan(1.1 * worth.perfect.saved.value);
  });

  it('is said in words and in a table', () => {
    expect(said(result.answer).join(' ')).toMatch(
      /Log 10 more tip tips first: worth .+ a campaign \(95 % interval .+ to .+\), for 20 min of writing down\. Nothing else alone is worth more than 0 min\./u,
    );
    const text = tuneReport.text(result, NO_STYLES);
    expect(text).toContain('What knowing it before choosing is worth');
    expect(text).toMatch(/everything +\d+/u);
  });

  it('is next to nothing where no value could change the choice', () => {
    const sure = tuned(scenario(20, 25), { ...ASKED, draws: 200 });
    expect(sure.worth?.perfect.saved.value).toBe(0);
    expect(said(sure.answer).join(' ')).toMatch(/Choose 1\.4 for “[^”]+” with what is known: even if all/u);
  });

  it('is null unless it is asked for', () => {
    expect(tuned(scenario(20, 25), { ...ASKED, draws: null }).worth).toBeNull();
  });
});
