import { expect, it } from 'vitest';
import { fittedLog } from '../../support/fitted-log.js';
import { spoilingOf, tipLives } from '../../support/tip-lives.js';

/**
 * 400 lives in one run with a fixed seed. Each of the four parameters is held to 6 standard errors of its logarithm, as the fit gives
 * them: a false alarm for normal estimates comes in less than 4 · 2e-9, so in less than one of a million runs.
 */
it('finds the parameters of a scenario again in the lives that the simulator gives its tips', () => {
  const hazards = [
    { cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 1.8, scale: '20 images' } },
    {
      cause: 'worn-out',
      per: 'image',
      life: { distribution: 'lognormal', median: '22 images', geometricSd: 1.7 },
      quality: 0.5,
    },
  ];
  const lives = tipLives({ seed: 'round trip', replications: 20, tipsAtHand: 20, images: 3000, hazards }).map(
    spoilingOf,
  );
  const rows = lives.map(({ cause, use }, index) => `${String(index + 1)},sharp,${String(use.images)},${cause}`);
  const summary = fittedLog(['tip,kind,images,ended', ...rows].join('\n'), {
    distributions: new Map([
      ['breakage', 'weibull'],
      ['worn-out', 'lognormal'],
    ]),
  });
  expect(summary.log.used).toBe(400);
  const truth = { shape: 1.8, scale: 20, median: 22, geometricSd: 1.7 };
  const found = summary.kinds.flatMap(({ causes }) => causes.flatMap(({ hazard }) => hazard ?? []));
  const checked = found.flatMap(({ parameters, uncertainty }) =>
    parameters.map(({ name, value }, place) => {
      const wanted = new Map(Object.entries(truth)).get(name) ?? NaN;
      const free = (number: number) => (name === 'geometricSd' ? Math.log(Math.log(number)) : Math.log(number));
      const away = Math.abs(free(value) - free(wanted)) / Math.sqrt(uncertainty.covariance[place][place]);
      expect(away, name).toBeLessThan(6);
      return name;
    }),
  );
  expect(checked).toEqual(['shape', 'scale', 'median', 'geometricSd']);
});
