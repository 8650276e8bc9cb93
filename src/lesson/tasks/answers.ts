/** The answers that a person can choose from, one list a question; apart from the engine, which the page does not hold. */

export const HANDS_ANSWERS = ['Shorter', 'Longer', 'No clear difference'] as const;

export const WAYS_ANSWERS = [
  'Go on with the tip, whatever the doubt',
  'Do what the rules say',
  'Replace the tip at every doubt',
] as const;

export const PREPARATION_ANSWERS = ['Swap', 'Hop', 'No clear difference'] as const;

export const WAIT_ANSWERS = ['Shorter', 'As long', 'Longer'] as const;

export const AGE_ANSWERS = ['After fewer images', 'After as many images', 'After more images'] as const;
