import { describe, expect, it } from 'vitest';
import { freeHasteAlong, freeHasteBetween, freeHasteText, hasteCosts } from '../../src/analysis/what-rushing-costs.js';
import { altered, load, SAMPLE } from '../scenario/sample.js';
import { nonEmpty } from '../support/non-empty.js';

/** What rushing costs each strategy of a scenario, by hand and hopping. */
function costsIn(text: string) {
  return load(text).strategies.map(({ settings, workflow }) => hasteCosts(settings, workflow));
}

const BREAKAGE = `- cause: breakage
        per: distance
        life: {distribution: exponential, mean: 800 mm}`;
const COATING = '- {cause: coating, per: hour, life: {distribution: weibull, shape: 2, scale: 30 h}}';
/** A hazard of the sample, with an exponent of acceleration by pace. */
const accelerated = (per: string, pace: number): readonly [string, string] =>
  per === 'hour'
    ? [COATING, COATING.replace(/\}$/u, `, acceleration: {pace: ${pace}}}`)]
    : [BREAKAGE, `${BREAKAGE}\n        acceleration: {pace: ${pace}}`];

describe('what makes faster scanning worse', () => {
  it('is nothing where no loop has to follow and no hazard is accelerated', () => {
    for (const { scan } of nonEmpty(costsIn(SAMPLE))) expect(scan).toEqual([]);
  });

  it('is a tracking bandwidth, but only where the pass names what it must resolve', () => {
    const tracked = altered(['dip: 1 nm', 'dip: 1 nm\n      trackingBandwidth: 500 Hz']);
    for (const { scan } of nonEmpty(costsIn(tracked)))
      expect(scan).toEqual(['tracking bandwidth with a needed resolution']);
    const unneeded = altered(['signal: electrical', 'signal: electrical\n      trackingBandwidth: 500 Hz']);
    for (const { scan } of nonEmpty(costsIn(unneeded))) expect(scan).toEqual([]);
  });

  it.each([
    ['distance', 0.5, 1],
    ['distance', -1, 0],
    ['hour', 0.5, 0],
    ['hour', 1, 0],
    ['hour', 1.5, 1],
  ])('counts a hazard per %s with exponent %f only where an image then brings more exposure', (per, pace, count) => {
    for (const { scan } of nonEmpty(costsIn(altered(accelerated(per, pace))))) expect(scan).toHaveLength(count);
  });

  it('leaves out hazards that no image of the plan meets', () => {
    const hasty = accelerated('hour', 2);
    for (const { scan } of nonEmpty(costsIn(altered(hasty)))) expect(scan).toHaveLength(1);
    for (const { scan } of nonEmpty(costsIn(altered(hasty, ['signal: electrical', 'signal: topography']))))
      expect(scan).toEqual([]);
    const unused = [
      ['tip: coated', 'tip: sharp'],
      ['signal: electrical', 'signal: topography'],
    ] as const;
    for (const { scan } of nonEmpty(costsIn(altered(hasty, ...unused)))) expect(scan).toEqual([]);
  });
});

describe('what makes quicker hands worse', () => {
  it('is mishandling that grows with their pace, each workflow by its own', () => {
    for (const { hands } of nonEmpty(costsIn(SAMPLE)))
      expect(hands).toEqual(['mishandling that grows with the pace of hands']);
    const even = altered(['workflows:\n', 'workflows:\n  swap: {mishandling: {paceExponent: 0}}\n']);
    expect(costsIn(even).map(({ hands }) => hands.length)).toEqual([0, 1]);
    const never = altered(['  hop:\n    steps', '  hop:\n    mishandling: {probability: 0}\n    steps']);
    expect(costsIn(never).map(({ hands }) => hands.length)).toEqual([1, 0]);
  });

  it('is a manual step that fails more often in a hurry', () => {
    const hasty = ['workflows:\n', 'workflows:\n  swap: {haste: {successExponent: 1.5}}\n'] as const;
    expect(costsIn(altered(hasty)).map(({ hands }) => hands.length)).toEqual([2, 1]);
    const sure = hasty[1].replace('haste', 'steps: {relocate: {success: 1}}, haste');
    expect(costsIn(altered([hasty[0], sure])).map(({ hands }) => hands.length)).toEqual([1, 1]);
  });

  it('is a hazard at the approach that grows with their pace', () => {
    const hasty = BREAKAGE.replace('distance', 'approach').replace('800 mm', '800');
    const text = altered([BREAKAGE, `${hasty}\n        acceleration: {hands: 1}`]);
    expect(costsIn(text).map(({ hands }) => hands.length)).toEqual([2, 2]);
  });

  it('follows what a strategy sets for itself', () => {
    const own = altered(['workflow: swap', 'workflow: swap\n    set: {workflows.swap.mishandling.paceExponent: 0}']);
    expect(costsIn(own).map(({ hands }) => hands.length)).toEqual([0, 1]);
  });
});

describe('what makes shorter waits worse', () => {
  it('is drift after a disturbance, where a pass bears only so much', () => {
    const drift = 'drift: {handling: {}}';
    const drifting = ['workflows:\n', `workflows:\n  swap: {${drift}}\n`] as const;
    const bearing = ['dip: 1 nm', 'dip: 1 nm\n      driftTolerance: 50 nm'] as const;
    const counts = (text: string) => costsIn(text).map(({ wait }) => wait.length);
    expect(counts(altered(drifting, bearing))).toEqual([1, 0]);
    expect(counts(altered(drifting))).toEqual([0, 0]);
    expect(counts(altered(bearing))).toEqual([0, 0]);
    const moved = ['  hop:\n', '  hop:\n    drift: {move: {}}\n'] as const;
    expect(counts(altered(moved, bearing))).toEqual([0, 1]);
  });
});

describe('the sentence that haste is free', () => {
  it('names everything that could have made it worse, and is empty where something does', () => {
    const [costs] = costsIn(SAMPLE);
    expect(freeHasteText(costs, 'scan', 'in this scenario')).toBe(
      'Nothing in this scenario makes faster scanning worse (no tracking bandwidth with a needed resolution and no hazard that grows with the pace of scanning), so haste looks better here than it is.',
    );
    expect(freeHasteText(costs, 'hands', 'in this scenario')).toBe('');
  });
});

describe('strategies at different paces', () => {
  /** The sample's first strategy at some pace; nothing in it makes faster scanning worse, but quicker hands mishandle. */
  const at = (pace: string) => load(altered(['workflow: swap', `workflow: swap\n    pace: ${pace}`])).strategies;

  it('are said to hurry for nothing where one is quicker than another and nothing makes that worse', () => {
    const [{ name }] = at('{scan: 1.5}');
    expect(freeHasteBetween(at('{scan: 1.5}'))).toEqual([
      expect.stringContaining(`Nothing in “${name}” makes faster scanning worse`),
    ]);
    expect(freeHasteBetween(at('{scan: 1, hands: 2}'))).toEqual([]);
    expect(freeHasteBetween(load(SAMPLE).strategies)).toEqual([]);
  });

  it('are said to where a study varies a pace, shared or one of their own', () => {
    const { strategies } = load(SAMPLE);
    for (const path of ['pace.scan', 'strategies.by hand.pace.scan'])
      expect(freeHasteAlong([path], strategies)).toEqual([expect.stringMatching(/makes faster scanning worse/u)]);
    expect(freeHasteAlong(['pace.hands', 'rules.after'], strategies)).toEqual([]);
  });
});
