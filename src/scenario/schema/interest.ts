import * as z from 'zod';
import { fraction } from './leaf.js';

const of = (description: string, usual: number) => fraction({ description }).prefault(usual);

/**
 * From which size on a difference matters. Conventions, not measurements: 5 % of a mean is what a planner notices, and a point
 * of a share of images what a reader of the data does.
 */
export const interestSchema = z
  .strictObject({
    time: of('Smallest difference in instrument time that matters; a share of the first strategy’s mean', 0.05),
    operatorTime: of('Smallest difference in operator time that matters; a share of the first strategy’s mean', 0.05),
    yield: of('Smallest difference in yield that matters; 0.01 is one percentage point', 0.01),
    undetectedBad: of('Smallest difference in the undetected bad share that matters', 0.01),
    tips: of('Smallest difference in tips that matters; a share of the first strategy’s mean', 0.05),
    cost: of('Smallest difference in cost that matters; a share of the first strategy’s mean', 0.05),
    completion: of('Smallest difference in the probability of completion that matters', 0.05),
  })
  .meta({ id: 'smallestDifference', description: 'Smallest difference of interest, measure by measure' });
