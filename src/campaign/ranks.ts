/**
 * At equal times: end of a step, closing, opening, hazard event, noticing, start. What happens to a tip during a scan is
 * worked out when the scan starts, so hazard events are never scheduled; their place is kept all the same.
 */
export const RANK = { stepEnd: 0, closing: 1, opening: 2, hazard: 3, noticing: 4, start: 5 } as const;
