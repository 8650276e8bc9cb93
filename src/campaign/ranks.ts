/** At equal times: end of a step, closing, opening, hazard event, noticing, start. */
export const RANK = { stepEnd: 0, closing: 1, opening: 2, hazard: 3, noticing: 4, start: 5 } as const;
