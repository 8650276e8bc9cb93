import { describe, expect, it } from 'vitest';
import { faultsOf, load, SAMPLE, shown } from './sample.js';

/** The sample's second strategy with more lines of its own, the first of which is line 36 of the file. */
function hopping(...lines: readonly string[]): string {
  return `${SAMPLE}${lines.map((line) => `    ${line}\n`).join('')}`;
}

function settingsOf(...lines: readonly string[]) {
  const { strategies } = load(hopping(...lines));
  const [first, second] = strategies.map(({ settings }) => settings);
  return { first, second };
}

describe('what a strategy overrides', () => {
  it('changes that strategy alone', () => {
    const { first, second } = settingsOf('pace: {scan: 1.5}', 'rules: {after: 20 images}');
    expect(first.pace).toEqual({ scan: 1, hands: 1, wait: 1 });
    expect(second.pace).toEqual({ scan: 1.5, hands: 1, wait: 1 });
    expect(first.rules.after).toBeUndefined();
    expect(second.rules.after).toEqual({ unit: 'image', amount: 20 });
  });

  it('is laid over the shared rules entry by entry', () => {
    const text = `rules: {after: 9 images, cleanFirst: {tries: 3, time: 4 min}}\n${hopping('rules: {cleanFirst: {time: 8 min}}')}`;
    expect(load(text).strategies[1].settings.rules).toMatchObject({
      after: { amount: 9 },
      cleanFirst: { tries: 3, time: 480 },
    });
  });

  it.each<readonly [string, string, (settings: ReturnType<typeof settingsOf>['second']) => unknown, unknown]>([
    ['an item of a list by its name', 'plan.passes.topography.accept: 0.5', (s) => s.plan.passes[0].accept, 0.5],
    ['an item of a list by its number from 0', 'plan.passes.1.accept: 0.5', (s) => s.plan.passes[1].accept, 0.5],
    [
      'a hazard by its cause',
      'tips.sharp.hazards.breakage.life.mean: 1 m',
      (s) => s.tips['sharp'].hazards[0].life,
      { distribution: 'exponential', mean: 1000 },
    ],
    [
      'one half of a default',
      'workflows.hop.steps.settle.p90: 10 min',
      (s) => s.workflows.hop.steps.settle,
      { usual: 60, p90: 600, manual: false, success: 1 },
    ],
    [
      'a whole step',
      'workflows.hop.steps.prepare: {usual: 1 h, p90: 2 h}',
      (s) => s.workflows.hop.steps.prepare,
      { usual: 3600, p90: 7200, manual: true, success: 0.8 },
    ],
    [
      'the chance of a step written as plain text',
      'workflows.hop.steps.prepare.success: 0.5',
      (s) => s.workflows.hop.steps.prepare,
      { fixed: 2700, manual: true, success: 0.5 },
    ],
    ['something optional that is not there yet', 'noticing.check.every: 5', (s) => s.noticing.check?.every, 5],
    ['a new entry of a record', 'workflows.hop.chip.dead.sharp: 0.3', (s) => s.workflows.hop.chip.dead, { sharp: 0.3 }],
    ['a value taken away, so that its default comes back', 'tips.coated.price: ~', (s) => s.tips['coated'].price, 0],
  ])('may be %s', (_, line, pick, wanted) => {
    expect(pick(settingsOf('set:', `  ${line}`).second)).toEqual(wanted);
  });

  it('may be a part of a stock written short', () => {
    const { second } = settingsOf('set:', '  stock.specimens: 3', '  stock.specimens.restock: 3 d');
    expect(second.stock.specimens).toEqual({ atHand: 3, restock: 259_200 });
  });

  it('is read in its order, so that a later line may build on an earlier one', () => {
    const { second } = settingsOf('set:', '  noticing.watch: {by: automatic}', '  noticing.watch.sensitivity: 0.9');
    expect(second.noticing.watch).toMatchObject({ by: 'automatic', sensitivity: 0.9 });
  });
});

describe('a mistake in what a strategy overrides', () => {
  it.each([
    [
      'a value out of range',
      'plan.passes.topography.accept: 7',
      '37:38 plan.passes.topography.accept: read `7`; at most 1 is wanted',
    ],
    [
      'a wrong unit',
      'workflows.hop.steps.settle.p90: 10 nm',
      '37:39 workflows.hop.steps.settle.p90: read `10 nm`, whose unit `nm` does not measure a time; a time such as `10 min` is wanted',
    ],
    [
      'a mistake within a map',
      'noticing.check: {evry: 5}',
      '37:24 noticing.check.evry: unknown key `evry`; did you mean `every`?',
    ],
    [
      'a path that leads nowhere',
      'workflows.hop.step.settle: 10 s',
      '37:7 strategies.hopping.set.workflows.hop.step.settle: unknown path `workflows.hop.step.settle`: no `step` there; did you mean `workflows.hop.steps`?',
    ],
    [
      'an item of a list that is not there',
      'plan.passes.topo.accept: 0.5',
      '37:7 strategies.hopping.set.plan.passes.topo.accept: unknown path `plan.passes.topo.accept`: the list has no item `topo`; expected one of `topography`, `current`',
    ],
    [
      'a path below a single value',
      'plan.regions.count: 5',
      '37:7 strategies.hopping.set.plan.regions.count: unknown path `plan.regions.count`: `plan.regions` is a single value',
    ],
    [
      'a time of another form',
      'workflows.hop.steps.prepare.usual: 1 h',
      '37:7 strategies.hopping.set.workflows.hop.steps.prepare.usual: `usual` does not go with `fixed`, in which this time is written; set the whole step, such as `{usual: 3 min, p90: 5 min}`',
    ],
    [
      'what all strategies share',
      'seed: "2"',
      '37:7 strategies.hopping.set.seed: `seed` is shared by all strategies; a strategy cannot set it',
    ],
    [
      'something that must be there taken away',
      'plan.regions: ~',
      '37:21 plan.regions: `regions` is missing; a number is wanted',
    ],
    [
      'half of a sum that exceeds 1',
      'rules.recondition.breaks: 0.9',
      '37:33 rules.recondition.newApex: newApex and breaks together must not exceed 1',
    ],
    [
      'a way to the prototype',
      'tips.__proto__.price: 1 EUR',
      '37:7 strategies.hopping.set.tips.__proto__.price: unknown path `tips.__proto__.price`: no `__proto__` there; expected one of `sharp`, `coated`',
    ],
  ])('%s is told at the strategy’s own line', (_, line, fault) => {
    expect(shown(faultsOf(hopping('set:', `  ${line}`)))).toEqual([fault]);
  });

  it('in rules or pace is told once, at its own line', () => {
    expect(shown(faultsOf(hopping('pace: {scan: 99}', 'rules: {aftr: 3 h}')))).toEqual([
      '36:18 strategies.hopping.pace.scan: read `99`; at most 50 is wanted',
      '37:13 strategies.hopping.rules.aftr: unknown key `aftr`; did you mean `after`?',
    ]);
  });
});
