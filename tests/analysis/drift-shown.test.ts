import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { LuckTable } from '../../src/chance/luck.js';
import { runCampaign } from '../../src/campaign/campaign.js';
import { quality } from '../../src/studies/compare/charts/quality.js';
import { replicationChart } from '../../src/studies/compare/charts/replication.js';
import { imagesCsv } from '../../src/report/csv.js';
import type { LoadedScenario } from '../../src/scenario/load.js';
import { compare } from '../../src/studies/compare/compare.js';
import type { Summary } from '../../src/analysis/results.js';
import { traceReplication } from '../../src/analysis/trace.js';
import type { Raw } from '../support/run.js';
import { kind, laidOver, pass, type Plain, plainModel, plainText, SCENE } from '../support/scene.js';
import { StepLog } from '../support/step-log.js';
import { nonEmpty } from '../support/non-empty.js';
import { loadedOf } from '../support/run.js';

/** Handling starts 1 nm/s, always, which decays in 10 min; images of 4 min, of which 100 nm of drift are borne. */
const DRIFT = { handling: { rate: '1 nm/s', geometricSd: 1, decay: '10 min' } };
const PLAIN: Plain = {
  regions: 1,
  passes: Array.from({ length: 3 }, () => ({ lines: 240, driftTolerance: '100 nm', accept: 0.9 })),
  steps: { setUp: 60 },
  more: { drift: DRIFT },
};

function read(text: string): LoadedScenario {
  return loadedOf(text);
}

function summaryOf(loaded: LoadedScenario): Summary {
  const options = { file: 'plain.yaml', sha256: 'none', toolVersion: '0', replications: 20 };
  return compare({ ...loaded, register: [] }, options).summary;
}

/** Hopping and swapping with breakages; in which workflows there is drift. */
function scene(...drifting: readonly ('swap' | 'hop')[]): LoadedScenario {
  const over: Raw = {
    plan: { regions: 2, passes: [{ ...pass('a', 4), driftTolerance: '60 nm' }] },
    tips: { sharp: kind({ cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit: 0.3 } }) },
    workflows: Object.fromEntries(drifting.map((workflow) => [workflow, { drift: DRIFT }])),
    strategies: [
      { name: 'by hand', workflow: 'swap' },
      { name: 'hopping', workflow: 'hop' },
    ],
  };
  return read(stringify(laidOver(SCENE, over)));
}

const HEADER =
  'strategy,image,sample,region,pass,quality (mean),good (share),undetected bad (share),given up (share),missing (share),attempts (mean)';
const csvOf = (summary: Summary) => [...imagesCsv(summary)].join('').split('\r\n');
const typical = replicationChart('typical', 'A typical replication', 0);

/*
 * By hand: the first scan right after the set-up is displaced by 197.8 nm, its first repetition by 132.6 nm, the second by
 * 88.9 nm (known answer 11 of the campaign's tests): two are bad, by drift alone, and the third is good.
 */
describe('where something drifts', () => {
  const summary = summaryOf(read(plainText(PLAIN)));
  const [{ badScans, images }] = summary.strategies;

  it('tells what drift left of the kept attempt, and how many scans it alone spoiled', () => {
    expect(badScans).toEqual({ byDrift: 2, otherwise: 0 });
    expect(images.map(({ takes, drift }) => [takes, drift])).toEqual(
      [2, 0, 0].map((byDrift) => [byDrift + 1, { factor: 1, badScans: { byDrift, otherwise: 0 } }]),
    );
    expect(csvOf(summary).slice(0, 2)).toEqual([
      `${HEADER},q_drift of the kept attempt (mean),bad by drift alone (mean),bad otherwise (mean)`,
      expect.stringMatching(/,3,1,2,0$/),
    ]);
    expect(quality.caption(summary)).toContain('drift alone spoiled: 2.00 of 2.00 by ');
  });

  it('parts all bad scans into those that drift alone spoiled, and the others', () => {
    const hazards = [{ cause: 'breakage', per: 'approach', life: { distribution: 'probability', perUnit: 0.3 } }];
    const model = plainModel({ ...PLAIN, regions: 4, hazards });
    const table = new LuckTable('parts');
    const seen = { byDrift: 0, otherwise: 0 };
    for (let replication = 0; replication < 20; replication += 1) {
      const log = new StepLog();
      const { badScans: told } = runCampaign(model, table.replication(replication), log);
      const bad = log.steps.flatMap(({ take }) => (take === null || take.good ? [] : [take]));
      // A tip of this plan is whole or broken, so nothing but drift leaves a quality between 0 and 1.
      const byDrift = bad.filter((take) => take.quality > 0).length;
      const sum = (part: 'byDrift' | 'otherwise') => told?.reduce((all, each) => all + each[part], 0) ?? 0;
      expect([sum('byDrift'), sum('otherwise')]).toEqual([byDrift, bad.length - byDrift]);
      seen.byDrift += byDrift;
      seen.otherwise += bad.length - byDrift;
    }
    expect(seen.byDrift).toBeGreaterThan(0);
    expect(seen.otherwise).toBeGreaterThan(0);
  });

  it('traces rate, displacement and q_drift of each scan', () => {
    const loaded = read(plainText(PLAIN));
    const [{ name }] = loaded.strategies;
    const [scan] = traceReplication(loaded, name, 1).events.filter(({ what }) => what === 'scan');
    expect(scan.detail).toContain('drift rate 1.00 nm/s at its start, displacement 198 nm, q_drift 0.5055');
  });

  it('draws the rate under the state of the tip, and says so', () => {
    const [{ timelines }] = summary.shown;
    const [{ drift = [], segments }] = timelines;
    expect(drift[0]).toEqual({ instrument: 0, start: 0, end: 60, rate: 0 });
    expect(drift[1]).toMatchObject({ start: 60, rate: 1 });
    expect(drift.at(-1)?.end).toBe(segments.at(-1)?.end);
    expect(typical.caption(summary)).toContain('The line at the bottom is the drift rate');
    expect(typical.table(summary).rows).toContainEqual(['greatest drift rate (nm/s)', '1.000']);
    expect(JSON.stringify(typical.drawing(summary)?.(928))).toContain('step-after');
  });
});

describe('where nothing drifts', () => {
  const summary = summaryOf(scene());

  it('nothing is said of drift anywhere', () => {
    expect(csvOf(summary)[0]).toBe(HEADER);
    expect(JSON.stringify(summary)).not.toMatch(/drift|badScans/u);
    for (const chart of [quality, typical])
      expect(JSON.stringify([chart.caption(summary), chart.table(summary), chart.drawing(summary)?.(928)])).not.toMatch(
        /drift|nm\/s|step-after/u,
      );
    expect(JSON.stringify(traceReplication(scene(), 'by hand', 1))).not.toMatch(/drift/u);
  });

  it('a strategy has empty cells beside one that drifts, and the others', () => {
    const mixed = summaryOf(scene('swap'));
    const rows = csvOf(mixed).slice(1, -1);
    expect(
      nonEmpty(rows.filter((row) => row.startsWith('by hand'))).every((row) => /,\d[^,]*,\d[^,]*,\d[^,]*$/u.test(row)),
    ).toBe(true);
    expect(nonEmpty(rows.filter((row) => row.startsWith('hopping'))).every((row) => row.endsWith(',,,'))).toBe(true);
    expect(mixed.strategies.map(({ badScans }) => badScans === undefined)).toEqual([false, true]);
    expect(summaryOf(scene('swap')).strategies[1]).toEqual(summary.strategies[1]);
  });
});
