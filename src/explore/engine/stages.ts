/** Replications after which figures are shown anew: few at once, then four times as many. */
const FIRST = [16, 64, 256, 1024];

/** Replications to which a page comes unless it is asked for others. */
export const MOST = 2000;

/** The numbers of replications after which figures are shown, up to the last one. */
export function stagesUpTo(most: number): readonly number[] {
  return [...FIRST.filter((stage) => stage < most), most];
}
