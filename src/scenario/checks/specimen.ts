import { aboutQuantity } from '../quantity.js';
import { type Sample, samplesOf } from '../samples.js';
import { type Check, error } from './finding.js';

/** Regions lie on the specimen in square rows; slack for the division of lengths that fit exactly. */
const SLACK = 1e-9;

/** More regions than fit on the specimen that rides on the lever. */
export const regionsThatDoNotFit: Check = ({ plan, workflows }, workflow) => {
  const { extent } = workflows.hop;
  if (workflow !== 'hop' || extent === undefined) return [];
  const { name, regions } = largestOf(samplesOf(plan));
  const largest = plan.passes.reduce((most, { size }) => Math.max(most, size), 0);
  const row = Math.floor((extent + plan.regionGap) / (largest + plan.regionGap) + SLACK);
  if (row * row >= regions) return [];
  return [
    error(
      `\`workflows.hop.extent\` (${aboutQuantity('length', extent)}) is too small for the ${regions} regions of ${plan.samples === 1 ? 'the sample' : `sample ${name}`}, ${aboutQuantity('length', largest)} wide and ${aboutQuantity('length', plan.regionGap)} apart: ${row * row} fit; a larger extent, fewer \`plan.regions\`, or several \`plan.samples\` are wanted`,
      ['plan', 'regions'],
      ['workflows', 'hop', 'extent'],
      ['plan', 'regionGap'],
    ),
  ];
};

function largestOf(samples: readonly Sample[]): Sample {
  return samples.reduce((most, sample) => (sample.regions > most.regions ? sample : most));
}

/** The specimen's mass says nothing without the lever's, and the other way about. */
export const massesApart: Check = ({ workflows }) => {
  const { mass, effectiveMass } = workflows.hop;
  if ((mass === undefined) === (effectiveMass === undefined)) return [];
  const [given, wanted] = mass === undefined ? ['effectiveMass', 'mass'] : ['mass', 'effectiveMass'];
  return [
    error(`\`${given}\` is given without \`${wanted}\`; both are wanted, or neither`, ['workflows', 'hop', given]),
  ];
};
