/** Measures of one replication of one strategy, in the order in which tables show them. */
export const MEASURES = [
  'totalTime',
  'instrumentTime',
  'operatorTime',
  'benchTime',
  'overrun',
  'confirmedAt',
  'yield',
  'apparentYield',
  'undetectedBadShare',
  'good',
  'undetectedBad',
  'givenUp',
  'missing',
  'takes',
  'tips',
  'probes',
  'chips',
  'specimens',
  'cost',
] as const;
export type Measure = (typeof MEASURES)[number];

/** A record with one entry a measure. */
export function perMeasure<Value>(of: (measure: Measure) => Value): Record<Measure, Value> {
  return {
    totalTime: of('totalTime'),
    instrumentTime: of('instrumentTime'),
    operatorTime: of('operatorTime'),
    benchTime: of('benchTime'),
    overrun: of('overrun'),
    confirmedAt: of('confirmedAt'),
    yield: of('yield'),
    apparentYield: of('apparentYield'),
    undetectedBadShare: of('undetectedBadShare'),
    good: of('good'),
    undetectedBad: of('undetectedBad'),
    givenUp: of('givenUp'),
    missing: of('missing'),
    takes: of('takes'),
    tips: of('tips'),
    probes: of('probes'),
    chips: of('chips'),
    specimens: of('specimens'),
    cost: of('cost'),
  };
}
