import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { driftBlock } from '../../../../src/studies/fit/block.js';
import { writeDriftInto } from '../../../../src/studies/fit/drift/into-drift.js';
import type { DriftFitSummary } from '../../../../src/studies/fit/drift/results.js';
import { driftHead, driftRows, driftTable, fittedDrift, MADE_DRIFT, madeDrift } from '../../../support/made-drift.js';
import { nonEmpty } from '../../../support/non-empty.js';
import { loadedOf } from '../../../support/run.js';

function scenario(workflows: string, more = ''): string {
  return `# A plan for tests.
title: Three regions # of the wafer
plan:
  regions: 3
  passes:
    - { name: islands, tip: sharp,   size: 1 um, lines: 64, driftTolerance: 50 nm } # the islands alone
tips:
  sharp:
    hazards: []
workflows:${workflows}
strategies:
  - { name: swap by hand, workflow: swap }
  - { name: hop, workflow: hop }
${more}`;
}

const CHIP = '\n  hop:\n    chip: { sites: { sharp: 20 } }';
const summary = fittedDrift(driftTable('displacement'));

function filled(text: string, fit: DriftFitSummary = summary) {
  const written = writeDriftInto(text, fit);
  if (!written.ok) throw new Error(written.messages.join('; '));
  const loaded = loadedOf(written.text);
  const { workflows, sources, ranges } = loaded.base;
  return { ...written, swap: workflows.swap.drift, hop: workflows.hop.drift, sources, ranges };
}

function refused(text: string, fit: DriftFitSummary = summary): string {
  const written = writeDriftInto(text, fit);
  return written.ok ? '' : written.messages.join('; ');
}

describe('drift that is written into a scenario', () => {
  // Ten standard errors, by the covariance that is written: a chance below 1e-20 where logs are normal, far below 1e-6 where nearly so.
  it('is what the readings were made with, and as uncertain as is written', () => {
    const { hop, swap, sources } = filled(scenario(CHIP));
    expect(swap).toEqual({ handling: hop?.handling, steady: hop?.steady, uncertainty: swap?.uncertainty });
    const { uncertainty } = hop ?? {};
    if (uncertainty === undefined || !('of' in uncertainty)) throw new Error('no covariance was written');
    expect(uncertainty.of.toSorted()).toEqual([
      'handling.decay',
      'handling.geometricSd',
      'handling.rate',
      'move.decay',
      'move.geometricSd',
      'move.rate',
      'steady',
    ]);
    const off = (name: string, value: number | undefined, truth: number) => {
      const place = uncertainty.of.indexOf(name);
      const [found, made] = name.endsWith('geometricSd')
        ? [Math.log(Math.log(value ?? NaN)), Math.log(Math.log(truth))]
        : [Math.log(value ?? NaN), Math.log(truth)];
      return Math.abs(found - made) / Math.sqrt(uncertainty.covariance[place][place]);
    };
    expect(off('handling.rate', hop?.handling?.rate, 1)).toBeLessThan(10);
    expect(off('handling.geometricSd', hop?.handling?.geometricSd, 1.5)).toBeLessThan(10);
    expect(off('handling.decay', hop?.handling?.decay, 600)).toBeLessThan(10);
    expect(off('move.rate', hop?.move?.rate, 0.2)).toBeLessThan(10);
    expect(off('move.decay', hop?.move?.decay, 200)).toBeLessThan(10);
    expect(off('steady', hop?.steady, MADE_DRIFT.steady)).toBeLessThan(10);
    expect(sources['workflows.hop.drift.move']).toBe(
      'readings of drift readings.csv, 10 disturbances by move, 110 displacements',
    );
  });

  it.each([
    ['nothing', CHIP],
    ['an empty map', `${CHIP}\n    drift: {}`],
    ['flow maps', `${CHIP}\n    drift: { handling: { rate: 2 nm/s, decay: 5 min }, steady: 0.1 nm/s }`],
    [
      'block maps',
      `${CHIP}\n    drift:\n      handling:\n        rate: 2 nm/s # by eye\n        geometricSd: 2\n      move: {}`,
    ],
    ['a workflow of nothing', `${CHIP}\n  swap:`],
    ['one flow map of all', ' { hop: { chip: { sites: { sharp: 20 } }, drift: { steady: 0.1 nm/s } } }'],
  ])('stands where there was %s, and the second time changes no byte', (_, workflows) => {
    const once = filled(scenario(workflows));
    expect(once.hop).toMatchObject({ handling: { decay: once.swap?.handling?.decay }, move: {} });
    expect(filled(once.text).text).toBe(once.text);
  });

  it('leaves comments and the layout of other lines, and says which comments may be true no more', () => {
    const text = scenario(`${CHIP} # a chip\n    drift:\n      handling:\n        rate: 2 nm/s # by eye`);
    const { text: written, doubtful } = filled(text);
    for (const line of nonEmpty(text.split('\n').filter((each) => !/rate|drift:/u.test(each))))
      expect(written).toContain(line);
    expect(doubtful.map(({ comment }) => comment)).toEqual(['by eye']);
  });

  it('takes the place of ranges and sources that were said of it before', () => {
    const path = 'workflows.hop.drift';
    const said = `sources:\n  ${path}.handling.rate: a guess\nranges:\n  ${path}.move.rate: [0.1 nm/s, 0.3 nm/s]\n`;
    const { sources, ranges } = filled(scenario(`${CHIP}\n    drift: { handling: {}, move: {} }`, said));
    expect(Object.keys(sources)).not.toContain(`${path}.handling.rate`);
    expect(ranges).toEqual({});
  });

  const moves = fittedDrift([driftHead('rate'), ...driftRows(madeDrift('rate', 'moves', 1, 6), 'move')].join('\n'), {
    workflows: ['hop'],
  });
  it('leaves a kind that was not read, with its covariance', () => {
    const drift =
      '{ handling: {}, steady: 1 nm/s, uncertainty: { of: [steady, handling.decay], covariance: [[1, 0.1], [0.1, 0.25]] } }';
    const { hop, swap } = filled(scenario(`${CHIP}\n    drift: ${drift}`), moves);
    expect(swap).toBeUndefined();
    expect(hop?.handling).toMatchObject({ rate: 1, decay: 600 });
    if (hop?.uncertainty === undefined || !('of' in hop.uncertainty)) throw new Error('no covariance was written');
    const { of, covariance } = hop.uncertainty;
    expect(of).toEqual(['handling.decay', 'steady', 'move.rate', 'move.geometricSd', 'move.decay']);
    expect(covariance[0]).toEqual([0.25, 0, 0, 0, 0]);
  });

  it('is refused beside ranges of a kind that was not read, and where it is written as a reference', () => {
    const ranges = '{ handling: {}, uncertainty: { range: { handling.rate: [0.5 nm/s, 2 nm/s] } } }';
    expect(refused(scenario(`${CHIP}\n    drift: ${ranges}`), moves)).toContain('gives ranges of handling.rate');
    expect(refused(scenario(`\n  swap: { drift: &same { steady: 1 nm/s } }${CHIP}\n    drift: *same`))).toBe(
      'workflows.hop.drift is written as a reference; write it out',
    );
    expect(refused('a: [')).toBe('this is no YAML');
  });

  it('has the same values in the block to paste', () => {
    const block: unknown = parseDocument(driftBlock(summary)).toJS();
    expect(parseDocument(filled(scenario(CHIP)).text).toJS()).toMatchObject(block ?? { nothing: true });
  });

  it('says of what is not clear that it is none', () => {
    const alike = madeDrift('rate', 'drift alike', 1, 12, { ...MADE_DRIFT, geometricSd: 1, steady: 0 });
    const fit = fittedDrift([driftHead('rate'), ...driftRows(alike, 'handling')].join('\n'));
    expect(fit.kinds[0].notTold).toEqual(['geometricSd', 'steady']);
    const { swap } = filled(scenario(CHIP), fit);
    expect(swap?.handling?.geometricSd).toBeLessThan(1.1);
    expect(swap?.steady).toBeLessThan(0.02);
  });
});
