/**
 * What a draw is for. Each purpose is a word of the counter, so its draws never meet those of another.
 * Append only: a number once given stays, or every result ever published from a seed would change.
 */
export const PURPOSES = {
  dead: 0,
  radius: 1,
  wear: 2,
  life: 3,
  chipFactor: 4,
  clearing: 5,
  review: 6,
  watch: 7,
  checkJudgement: 8,
  checkReading: 9,
  cleaning: 10,
  reconditioning: 11,
  newApex: 12,
  stepTime: 13,
  /** The companion of `stepTime`, from the other half of its block. */
  stepSuccess: 14,
  mishandling: 15,
  specimenLoss: 16,
  parameterUncertainty: 17,
  hindsight: 18,
  logBootstrap: 19,
  // 20 was that of elementary effects.
  pictures: 21,
  driftRate: 22,
  madeRecords: 23,
} as const;

export type Purpose = (typeof PURPOSES)[keyof typeof PURPOSES];
