import { aboutQuantity } from '../quantity.js';
import { type Check, error } from './finding.js';

/** Regions lie on the specimen in square rows; slack for the division of lengths that fit exactly. */
const SLACK = 1e-9;

/** More regions than fit on the specimen that rides on the lever. */
export const regionsThatDoNotFit: Check = ({ plan, workflows }, workflow) => {
  const { extent } = workflows.hop;
  if (workflow !== 'hop' || extent === undefined) return [];
  const largest = plan.passes.reduce((most, { size }) => Math.max(most, size), 0);
  const row = Math.floor((extent + plan.regionGap) / (largest + plan.regionGap) + SLACK);
  if (row * row >= plan.regions) return [];
  return [
    error(
      `${plan.regions} regions of ${aboutQuantity('length', largest)} with ${aboutQuantity('length', plan.regionGap)} between them do not fit on a specimen of ${aboutQuantity('length', extent)}; ${row * row} fit`,
      ['plan', 'regions'],
      ['workflows', 'hop', 'extent'],
      ['plan', 'regionGap'],
    ),
  ];
};

/** The specimen's mass says nothing without the lever's, and the other way about. */
export const massesApart: Check = ({ workflows }) => {
  const { mass, effectiveMass } = workflows.hop;
  if ((mass === undefined) === (effectiveMass === undefined)) return [];
  const [given, wanted] = mass === undefined ? ['effectiveMass', 'mass'] : ['mass', 'effectiveMass'];
  return [
    error(`\`${given}\` is given without \`${wanted}\`; both are wanted, or neither`, ['workflows', 'hop', given]),
  ];
};
