import type { Check } from './finding.js';
import { chippingWithoutEnd } from './endless.js';
import { driftInOneWorkflowAlone, handsOffTheApproach, steadyDriftThatSpoilsAll, waitsForNoDrift } from './drift.js';
import { operatorsNeverInABooking, scansLongerThanEveryBooking, sessionsThatNeverEnd } from './hours.js';
import { scansThatNoReopeningReaches } from './reopening.js';
import { newTipsThatMissAccept } from './new-tips.js';
import { repeatedPasses, repeatedSamples, tooManyRegions } from './names.js';
import { massesApart, regionsThatDoNotFit } from './specimen.js';
import { coatingsThatLastForEver, kindsWithoutSites, nothingToBeginWith, strayKinds, undefinedKinds } from './tips.js';

/** Every check of a strategy as a whole; a new one is one more line here. */
export const CHECKS: readonly Check[] = [
  repeatedSamples,
  repeatedPasses,
  tooManyRegions,
  undefinedKinds,
  strayKinds,
  kindsWithoutSites,
  nothingToBeginWith,
  scansLongerThanEveryBooking,
  scansThatNoReopeningReaches,
  chippingWithoutEnd,
  operatorsNeverInABooking,
  sessionsThatNeverEnd,
  regionsThatDoNotFit,
  massesApart,
  newTipsThatMissAccept,
  coatingsThatLastForEver,
  waitsForNoDrift,
  driftInOneWorkflowAlone,
  steadyDriftThatSpoilsAll,
  handsOffTheApproach,
];
