import type { Chart } from '../../../report/charts/chart.js';
import { calendar } from './calendar.js';
import { cloud } from './cloud.js';
import { differences } from './differences.js';
import { finish } from '../../../report/charts/finish.js';
import { hours } from './hours.js';
import { type Known, parameterUncertainty } from './parameter-uncertainty.js';
import { quality } from './quality.js';
import { replicationChart } from './replication.js';
import { sessions } from './sessions.js';
import { tips } from './tips.js';

/** Every chart of the report, in the order of the page. A new chart is one file and one line here. */
export const CHARTS: readonly Chart[] = [
  finish,
  calendar,
  sessions,
  hours,
  cloud,
  tips,
  differences,
  quality,
  replicationChart('typical', 'A typical replication', 0),
  replicationChart('late', 'One near the 90th percentile of time', 1),
];

/** Charts of a comparison in which something is said to be uncertain, beside the others. */
export const NOT_KNOWING_CHARTS: readonly Chart<Known>[] = [parameterUncertainty];
