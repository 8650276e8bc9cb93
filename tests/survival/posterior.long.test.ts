import { describe, expect, it } from 'vitest';
import { ln } from '../../src/chance/elementary.js';
import { fitLife } from '../../src/survival/fit-life.js';
import { normalPriors, posteriorOf } from '../../src/survival/posterior.js';
import { departure } from '../support/check-values.js';
import { madeWith } from '../support/made-lives.js';

const LEVEL = 0.95;

describe('a posterior by grid', () => {
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
