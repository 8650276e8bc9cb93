import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const scenario = join(root, 'tests/support/small.yaml');

describe('a range on the command line', () => {
  it.each([
    ['breakeven', ['--vary', 'plan.region=2..5'], /unknown path `plan\.region`.*did you mean `?plan\.regions/],
    ['sweep', ['--vary', 'pace.scann=1..2'], /unknown path `pace\.scann`/],
    ['sweep', ['--vary', 'noticing.review.sensitivity=0.5..1.5'], /--vary noticing\.review\.sensitivity: at `1\.1`/],
    ['breakeven', ['--vary', 'plan.regions'], /--vary read `plan\.regions`; PATH=RANGE is wanted/],
    ['breakeven', ['--vary', 'plan.regions=9..5'], /first end must be less than its second/],
    ['breakeven', ['--vary', 'plan.order=region-first, tip-first'], /a break-even lies between numbers/],
    ['breakeven', [], /which value\? --vary PATH=RANGE/],
    ['sweep', ['--vary', 'plan.regions=2..800 by 1', '--vary', 'pace.scan=1..2'], /are \d+ cells, more than 2000/],
    ['sweep', ['--vary', 'a=1', '--vary', 'b=1', '--vary', 'c=1'], /can be given twice at most/],
  ])('of %s %j is refused with what is wrong', async (command, options, message) => {
    const outcome = await swapOrHop([command, scenario, ...options]);
    expect(outcome.stderr).toMatch(message);
    expect(outcome).toMatchObject({ code: 2, stdout: '' });
  });
});

describe('two strategies on the command line', () => {
  it.each([
    [['--between', 'hopp'], /no strategy is called `hopp`; did you mean `hop`\?/],
    [['--between', 'hop', '--and', 'hop'], /--between and --and both name `hop`/],
    [['--measure', 'tim'], /--measure wants one of time, operator-time, cost, yield, not `tim`; did you mean `time`\?/],
  ])('%j are refused with what is wrong', async (options, message) => {
    const outcome = await swapOrHop(['sensitivity', scenario, ...options]);
    expect(outcome.stderr).toMatch(message);
    expect(outcome).toMatchObject({ code: 2, stdout: '' });
  });
});

describe('an option', () => {
  it('that is given several times is a list where the command reads one; of any other the last counts', async () => {
    await inEmptyFolder(async (cwd) => {
      const vary = ['--vary', 'pace.scan=1, 2', '--vary', 'plan.regions=2, 3'];
      const given = ['sweep', scenario, ...vary, '--out', 'a', '--out', 'b', '--seed', '1', '--seed', '2', '--json'];
      const outcome = await swapOrHop(given, { cwd });
      expect(outcome.code).toBe(0);
      const summary = readFileSync(join(cwd, 'b/summary.json'), 'utf8');
      expect(summary).toContain('"seed": "2"');
      expect(summary.match(/"isChoice"/g)).toHaveLength(2);
      expect(readFileSync(join(cwd, 'b/report.html'), 'utf8')).toContain('--seed 2');
    });
  });
});
