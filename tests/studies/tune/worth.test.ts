import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../../src/chance/normal.js';
import { meansOf } from '../../../src/analysis/worth/drawn.js';
import { Columns } from '../../../src/execution/columns.js';
import { valueOfKnowingAll } from '../../../src/statistics/information/value.js';
import { GOALS } from '../../../src/studies/tune/goals.js';
import { lossesOf } from '../../../src/studies/tune/worth.js';
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
    expect(said(sure.answer).join(' ')).toMatch(
      /Choose 1\.4 for “[^”]+” with what is known: nothing that is uncertain would change the choice/u,
    );
  });

  it('is null unless it is asked for', () => {
    expect(tuned(scenario(20, 25), { ...ASKED, draws: null }).worth).toBeNull();
  });
});

describe('the worth of knowing before a choice by a ratio', () => {
  it('is that of the best way to choose with it, which trying all ways finds', () => {
    // A value that is one of two things, half of the draws each: seconds and yield of three settings in either case, of 4 images.
    const settings = [
      { time: [100, 180], share: [0.9, 0.5] },
      { time: [150, 120], share: [0.8, 0.7] },
      { time: [130, 150], share: [0.85, 0.6] },
    ];
    const planned = 4;
    const at = (first: number, second: number) => {
      const [one, other] = [settings[first], settings[second]];
      const quality = (planned * (one.share[0] + other.share[1])) / 2;
      return { quality, ratio: (one.time[0] + other.time[1]) / 2 / quality };
    };
    const now = settings.map((_, i) => at(i, i)).reduce((best, each) => (each.ratio < best.ratio ? each : best));
    const ways = settings.flatMap((_, i) => settings.map((__, j) => at(i, j)));
    const then = ways.reduce((best, each) => (each.ratio < best.ratio ? each : best));
    expect(then.ratio).toBeLessThan(0.9 * now.ratio);

    const DRAWS = 200;
    const size = { draws: DRAWS, replications: 2 };
    const kind = (draw: number) => Math.floor(draw / 10) % 2;
    const columns = settings.map(({ time, share }) => {
      const made = new Columns();
      const each = (values: readonly number[]) =>
        Float64Array.from({ length: DRAWS * size.replications }, (_, i) => values[kind(Math.floor(i / 2))]);
      made.append(DRAWS * size.replications, { instrumentTime: each(time), yield: each(share) });
      return made;
    });
    const { losses, goals, chosen } = lossesOf(
      GOALS['least-time-per-quality'],
      columns,
      settings.map(() => planned),
    );
    expect(goals[chosen]).toBeCloseTo(now.ratio, 10);
    const value = Float64Array.from({ length: DRAWS }, (_, draw) => kind(draw));
    const { value: saved } = valueOfKnowingAll(
      losses.map((loss) => meansOf(loss, size)),
      [value],
      0.95,
    );
    // For as much quality as the best setting has now: the better way to choose has another, here a little more.
    expect(saved).toBeCloseTo(((now.ratio - then.ratio) * then.quality) / now.quality, 10);
  });
});
