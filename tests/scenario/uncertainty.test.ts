import { describe, expect, it } from 'vitest';
import { knownWithin } from '../../src/scenario/uncertainty.js';
import { altered, faultsOf, load, shown } from './sample.js';

const LIFE = 'life: {distribution: exponential, mean: 800 mm}';
const COATING = 'life: {distribution: weibull, shape: 2, scale: 30 h}';
const breakage = (uncertainty: string) => altered([LIFE, `${LIFE}\n        uncertainty: ${uncertainty}`]);
const coating = (uncertainty: string) => altered([COATING, `${COATING}, uncertainty: ${uncertainty}`]);
const inSharp = (text: string) => altered(['  sharp:\n', `  sharp:\n    ${text}\n`]);

describe('an uncertainty', () => {
  it.each([
    ['from a fit of one value', breakage('{ of: [mean], covariance: [[0.04]] }')],
    ['from a fit of two values', coating('{of: [shape, scale], covariance: [[0.012, -0.003], [-0.003, 0.02]]}')],
    ['from a fit with an exponent', coating('{of: [scale, load], covariance: [[0.01, 0], [0, 0.09]]}')],
    ['as ranges in the units of the life', coating('{range: {scale: [20 h, 50 h], shape: [1.2, 3]}}')],
    [
      'of the wear',
      inSharp('blunting: {wear: {archardK: 0.001, hardness: 12 GPa, uncertainty: {range: {archardK: [1e-4, 1e-2]}}}}'),
    ],
    [
      'of a wear coefficient and its spread',
      inSharp(
        'blunting: {wear: {coefficient: 83 nm3/(nN mm), uncertainty: {of: [coefficient, geometricSd], covariance: [[0.2, 0], [0, 0.1]]}}}',
      ),
    ],
    ['of new tips', inSharp('radius: {nominal: 8 nm, uncertainty: {range: {nominal: [6 nm, 11 nm]}}}')],
  ])('may be given %s', (_, text) => {
    expect(shown(faultsOf(text))).toEqual([]);
    expect(load(text).inputs).toHaveLength(1);
  });

  it.each([
    [
      '{ of: [scale], covariance: [[0.04]] }',
      '22:29 of.0: read `scale`, which this lifetime does not have; one of `mean`, `pace`, `load` is wanted',
    ],
    ['{ of: [meen], covariance: [[0.04]] }', '22:29 of.0: read `meen`; did you mean `mean`?'],
    ['{ of: [mean, mean], covariance: [[0.04, 0], [0, 0.04]] }', '22:35 of.1: read `mean` a second time'],
    [
      '{ of: [mean], covariance: [[0.04, 0]] }',
      '22:49 covariance.0: has 2 numbers; 1 row of 1 number is wanted, as `of` names 1',
    ],
    [
      '{ of: [mean, load], covariance: [] }',
      '22:54 covariance: has 0 rows; 2 rows of 2 numbers are wanted, as `of` names 2',
    ],
    [
      '{ of: [mean, pace], covariance: [[0.04, 0.1], [0.1, 0.04]] }',
      '22:54 covariance: is no covariance: some combination of the values would have a variance below zero',
    ],
    [
      '{ of: [mean, pace], covariance: [[0.04, 0.01], [0.02, 0.04]] }',
      '22:70 covariance.1.0: read `0.02`, though the same covariance stands as `0.01` across the diagonal; a symmetric one is wanted',
    ],
    ['{ of: [mean], covariance: [[-0.04]] }', '22:50 covariance.0.0: read `-0.04`; a variance is zero or more'],
    ['{ of: [mean] }', '22:9 covariance: `covariance` is missing; a list is wanted'],
    ['{ range: {} }', '22:31 range: nothing stands here; for each value that is uncertain two ends are wanted'],
    [
      '{ range: { mean: [15, 40] } }',
      '22:40 range.mean.0: read `15`, which has no unit; as this is counted per distance, `80 mm` or the like is wanted',
    ],
    [
      '{ range: { mean: [900 mm, 400 mm] } }',
      '22:39 range.mean: read `900 mm` to `400 mm`; a lower end below the upper one is wanted',
    ],
    [
      '{ range: { mean: [900 mm, 1 m] } }',
      '22:39 range.mean: read `900 mm` to `1 m`; a range that holds the value itself, `800 mm`, is wanted',
    ],
    ['{ range: { mean: 3 } }', '22:39 range.mean: read `3`; a list of two values is wanted'],
  ])('%s is refused where it stands', (written, expected) => {
    const place = 'tips.sharp.hazards.breakage.uncertainty.';
    expect(shown(faultsOf(breakage(written))).map((fault) => fault.replace(place, ''))).toEqual([expected]);
  });

  it.each([
    [
      'a spread of nothing',
      coating('{of: [geometricSd], covariance: [[1]]}').replace('weibull, shape: 2, scale', 'exponential, mean'),
      'read `geometricSd`, which this lifetime does not have',
    ],
    [
      'a chance of zero',
      breakage('{of: [perUnit], covariance: [[1]]}').replace('exponential, mean: 800 mm', 'probability, perUnit: 0'),
      '`perUnit` is `0` here, about which nothing can be uncertain',
    ],
    [
      'an end that is the least possible',
      inSharp('radius: {geometricSd: 1.3, uncertainty: {range: {geometricSd: [1, 1.5]}}}'),
      'ends that are not the least or the greatest possible are wanted',
    ],
  ])('refuses %s', (_, text, expected) => {
    expect(shown(faultsOf(text)).join('\n')).toContain(expected);
  });

  it.each([
    'tips.sharp.hazards.breakage.uncertainty: {range: {mean: [500 mm, 900 mm]}}',
    'tips.sharp.hazards.breakage.uncertainty: ~',
    'tips.sharp.hazards: [{cause: breakage, per: image, life: {distribution: exponential, mean: 3}, uncertainty: {range: {mean: [1, 9]}}}]',
  ])('is not for a strategy to set: %s', (set) => {
    const text = breakage('{ of: [mean], covariance: [[0.04]] }').replace(
      'workflow: swap\n',
      `workflow: swap\n    set: {${set}}\n`,
    );
    const [fault, ...more] = shown(faultsOf(text));
    expect(fault).toMatch(
      /^35:11 strategies\.by hand\.set\..*: an uncertainty is shared by all strategies; a strategy cannot set it$/,
    );
    expect(more).toEqual([]);
  });

  it.each(['tips.sharp.hazards.breakage.life.mean: 400 mm', 'tips.sharp.hazards: []'])(
    'leaves a strategy what it sets beside it: %s',
    (set) => {
      const text = breakage('{ of: [mean], covariance: [[0.04]] }').replace(
        'workflow: swap\n',
        `workflow: swap\n    set: {${set}}\n`,
      );
      expect(shown(faultsOf(text))).toEqual([]);
    },
  );

  it('says within what a value is known: the central 95 % on its own scale', () => {
    const [fitted] = load(coating('{of: [shape, scale], covariance: [[0.04, 0], [0, 0.01]]}')).inputs;
    expect(fitted.parameters.map((parameter) => [parameter.path, knownWithin(parameter).text])).toEqual([
      // 2·exp(±1.96·0.2) and 30 h·exp(±1.96·0.1)
      ['tips.coated.hazards.coating.life.shape', 'known within 1.35 to 2.96'],
      ['tips.coated.hazards.coating.life.scale', 'known within 24.7 h to 36.5 h'],
    ]);
    const [byHand] = load(breakage('{range: {mean: [400 mm, 0.9 m]}}')).inputs;
    expect(knownWithin(byHand.parameters[0]).text).toBe('known within 400 mm to 900 mm');
  });
});
