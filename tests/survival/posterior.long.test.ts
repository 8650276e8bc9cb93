import { describe, expect, it } from 'vitest';
import { ln } from '../../src/chance/elementary.js';
import { fitLife } from '../../src/survival/fit-life.js';
import { normalPriors, posteriorOf } from '../../src/survival/posterior.js';
import { departure } from '../support/check-values.js';
import { madeWith } from '../support/made-lives.js';

const LEVEL = 0.95;

describe('a posterior by grid', () => {
  it.each(['weibull', 'lognormal', 'gamma'] as const)('stays the same on a finer grid: %s', (distribution) => {
    const log = madeWith({ distribution: 'weibull', shape: 1.5, scale: 80 }, 6, 'finer');
    const prior = [distribution === 'lognormal' ? ln(60) : 0.2, distribution === 'lognormal' ? -0.4 : ln(60)];
    const priors = normalPriors(prior.map((centre) => ({ centre, standardDeviation: 0.5 })));
    const coarse = posteriorOf(distribution, log, priors, prior, LEVEL);
    const finer = posteriorOf(distribution, log, priors, prior, LEVEL, { along: 0.05, across: 0.3 });
    if (coarse === null || finer === null) throw new Error('no posterior');
    coarse.parameters.forEach(({ value, low, high }, i) => {
      expect(departure(value, finer.parameters[i].value)).toBeLessThan(1e-9);
      expect(departure(low, finer.parameters[i].low)).toBeLessThan(1e-5);
      expect(departure(high, finer.parameters[i].high)).toBeLessThan(1e-5);
    });
    coarse.covariance.flat().forEach((value, i) => {
      expect(departure(value, finer.covariance.flat()[i])).toBeLessThan(1e-8);
    });
  });

  it('is the fit where many events speak, whatever the range said', () => {
    const log = madeWith({ distribution: 'weibull', shape: 1.8, scale: 100 }, 200, 'many');
    const wrong = [
      { centre: 0, standardDeviation: 0.4 },
      { centre: ln(300), standardDeviation: 0.8 },
    ];
    const found = posteriorOf('weibull', log, normalPriors(wrong), [0, ln(300)], LEVEL);
    const fit = fitLife('weibull', log, LEVEL);
    if (found === null || !fit.converged) throw new Error('no fit');
    found.parameters.forEach(({ value, low, high }, i) => {
      expect(departure(value, fit.parameters[i].value)).toBeLessThan(0.05);
      expect(departure(low, fit.parameters[i].low ?? NaN)).toBeLessThan(0.06);
      expect(departure(high, fit.parameters[i].high ?? NaN)).toBeLessThan(0.06);
    });
  });
});
