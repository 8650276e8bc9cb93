import type { FitSummary } from '../results.js';
import type { Chart } from '../../../report/charts/chart.js';
import { hazard } from './hazard.js';
import { incidence } from './incidence.js';
import { probability } from './probability.js';
import { survival } from './survival.js';

/** Every chart of the report on a log, in the order of the page. A new chart is one file and one line here. */
export const FIT_CHARTS: readonly Chart<FitSummary>[] = [incidence, survival, probability, hazard];
