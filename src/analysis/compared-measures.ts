/** The headline trio: replications stop by it, and the typical one is chosen by it. */
export const HEADLINE = ['time', 'yield', 'tips'] as const;

/** The measures that get a verdict, in the order in which it is given; `time` is the one that comparisons use. */
export const COMPARED = ['time', 'operatorTime', 'yield', 'undetectedBadShare', 'tips', 'cost'] as const;
export type ComparedMeasure = (typeof COMPARED)[number];

/** Chances that are compared before them: to complete within the allocation, where there is one, and to complete at all. */
export const COMPLETIONS = ['withinAllocation', 'finishes'] as const;
export type Completion = (typeof COMPLETIONS)[number];

/** Measures by which two strategies are set against each other, to see which is better or where they are equal. */
export const PAIR_MEASURES = ['time', 'operatorTime', 'cost', 'yield'] as const;
export type PairMeasure = (typeof PAIR_MEASURES)[number];
