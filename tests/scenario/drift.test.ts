import { describe, expect, it } from 'vitest';
import { withValue } from '../../src/scenario/patch.js';
import { altered, faultsOf, load, SAMPLE } from './sample.js';

const WORKFLOWS = ['workflows:\n  hop:\n', 'workflows:\n'] as const;
/** The sample with something more to say of each workflow. */
function withWorkflows(swap: string, hop: string): string {
  return altered([WORKFLOWS[0], `workflows:\n  swap: {${swap}}\n  hop:\n    ${hop}\n`]);
}

const HANDLING = 'drift: {handling: {rate: 1 nm/s, decay: 10 min}, steady: 0.02 nm/s}';

/** `severity line:column message` of what a scenario is told. */
function told(text: string): readonly string[] {
  return faultsOf(text).map(({ severity, line, column, message }) => `${severity} ${line}:${column} ${message}`);
}

describe('drift of a workflow', () => {
  it('is none where nothing is said of it', () => {
    const { swap, hop } = load(SAMPLE).base.workflows;
    expect([swap.drift, hop.drift, swap.haste, hop.haste]).toEqual([undefined, undefined, undefined, undefined]);
  });

  it('is read into nanometres a second and seconds, each kind by itself', () => {
    const moved = 'drift: {handling: {}, move: {rate: 12 nm/min, geometricSd: 2}}';
    const { swap, hop } = load(withWorkflows(HANDLING, moved)).base.workflows;
    expect(swap.drift).toEqual({ handling: { rate: 1, geometricSd: 1.5, decay: 600 }, steady: 0.02 });
    expect(hop.drift).toEqual({
      handling: { rate: 1, geometricSd: 1.5, decay: 600 },
      move: { rate: 0.2, geometricSd: 2, decay: 180 },
    });
  });

  it('by moves is refused where nothing is moved', () => {
    expect(told(withWorkflows('drift: {move: {}}', HANDLING))).toEqual([expect.stringContaining('unknown key `move`')]);
  });

  it('stands in the assumptions as assumed, with its range', () => {
    const { register } = load(withWorkflows(HANDLING, HANDLING));
    const entries = register.filter(({ path }) => path.startsWith('workflows.swap.drift.'));
    expect(entries.map(({ path, value, standing, range }) => [path.slice(21), value, standing, range?.text])).toEqual([
      ['handling.rate', '1 nm/s', 'assumed', '0.5 nm/s to 2 nm/s'],
      ['handling.geometricSd', '1.5', 'assumed', '1.2 to 2.5'],
      ['handling.decay', '10 min', 'assumed', '3 min to 30 min'],
      ['steady', '0.02 nm/s', 'assumed', '0.005 nm/s to 0.1 nm/s'],
    ]);
  });

  it('may be uncertain as a fit says', () => {
    const known = HANDLING.replace(
      'steady',
      'uncertainty: {of: [handling.rate, handling.decay], covariance: [[0.01, 0], [0, 0.04]]}, steady',
    );
    expect(told(withWorkflows(known, HANDLING))).toEqual([]);
  });
});

describe('settling', () => {
  it('is a time, or lasts until drift has come down to a rate', () => {
    const until = `steps: {settle: {until: 0.05 nm/s}}, ${HANDLING}`;
    const { swap, hop } = load(withWorkflows(until, HANDLING)).base.workflows;
    expect(swap.steps.settle).toEqual({ until: 0.05, manual: false, success: 1 });
    expect(hop.steps.settle).not.toHaveProperty('until');
  });

  it('is found by its path, so that it can be varied', () => {
    const loaded = load(withWorkflows(`steps: {settle: {until: 0.05 nm/s}}, ${HANDLING}`, HANDLING));
    const changed = withValue(loaded, 'workflows.swap.steps.settle.until', '0.1 nm/s');
    expect(changed.ok && changed.scenario.base.workflows.swap.steps.settle).toMatchObject({ until: 0.1 });
  });

  it('waits for nothing where there is no drift, and is told so', () => {
    expect(told(withWorkflows('steps: {settle: {until: 0.05 nm/s}}', 'extent: 90 um'))).toEqual([
      'error 27:34 waits until drift has come down to 0.05 nm/s, though the workflow has none; `workflows.swap.drift` is wanted, or a settling time',
    ]);
  });

  it.each(['relocate', 'warmUp'])('is the only step that waits for drift: %s does not', (step) => {
    expect(faultsOf(withWorkflows(`steps: {${step}: {until: 0.05 nm/s}}, ${HANDLING}`, HANDLING))).not.toEqual([]);
  });

  it('may be longer before critical passes', () => {
    const { rules } = load(`${withWorkflows(HANDLING, HANDLING)}rules: {settleCritical: {until: 0.02 nm/s}}\n`).base;
    expect(rules.settleCritical).toEqual({ until: 0.02 });
    expect(load(`${SAMPLE}rules: {settleCritical: 20 min}\n`).base.rules.settleCritical).toEqual({ fixed: 1200 });
  });
});

describe('a plan with drift', () => {
  it('is told of a workflow that has none', () => {
    expect(told(withWorkflows(HANDLING, 'extent: 90 um'))).toEqual([
      'warning 27:17 drift is given for `swap` and not for `hop`, whose images then never drift; `workflows.hop.drift` is wanted',
    ]);
  });

  it('is told of a pass that the steady drift alone spoils', () => {
    // 128 lines at 1 Hz and 0.02 nm/s: 2.56 nm, of which 0.8 accept 2.05 nm.
    const bears = (tolerance: string) =>
      told(withWorkflows(HANDLING, HANDLING).replace('dip: 1 nm\n', `dip: 1 nm\n      driftTolerance: ${tolerance}\n`));
    expect(bears('2.1 nm')).toEqual([]);
    expect(bears('2 nm')).toEqual([
      'error 12:23 steady drift alone displaces an image of the pass `topography` by 2.56 nm, more than it bears (2 nm at quality 1, and at least 0.8 is accepted)',
    ]);
  });

  it('is told of an exponent of hands at a hazard that hands do not touch', () => {
    const hasty = (per: string) =>
      altered(['per: distance\n', `per: ${per}\n        acceleration: {hands: 1}\n`], ['mean: 800 mm', 'mean: 800']);
    expect(told(hasty('approach'))).toEqual([]);
    expect(told(hasty('image'))).toEqual([expect.stringContaining('acts on hazards per approach only')]);
  });
});
