import { exponential } from './laws/exponential.js';
import { gamma } from './laws/gamma.js';
import type { FittedLaw, LawToFit } from './laws/law.js';
import { lognormal } from './laws/lognormal.js';
import { weibull } from './laws/weibull.js';

export type { FittedLaw, FittedLife, LawParameter, LawToFit } from './laws/law.js';

/** One line a law. */
export const LAWS_TO_FIT: Readonly<Record<FittedLaw, LawToFit>> = { exponential, weibull, lognormal, gamma };
