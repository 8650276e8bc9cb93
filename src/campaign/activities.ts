/** What an instrument's time goes to, in the order in which tables and charts show it. */
export const ACTIVITIES = [
  'scanning kept',
  'scanning lost',
  'reviewing',
  'checking',
  'cleaning and reconditioning',
  'exchanging',
  'locating and relocating',
  'hopping',
  'preparing and setting up',
  'warming up and settling',
  'waiting for a booking',
  'waiting for stock',
  'waiting for the operator',
] as const;
export type Activity = (typeof ACTIVITIES)[number];

/** Place of each activity in ACTIVITIES. */
export const ACTIVITY_NUMBER: Readonly<Record<Activity, number>> = perActivity((activity) =>
  ACTIVITIES.indexOf(activity),
);

/** A record with one entry an activity. */
export function perActivity<Value>(of: (activity: Activity) => Value): Record<Activity, Value> {
  return {
    'scanning kept': of('scanning kept'),
    'scanning lost': of('scanning lost'),
    reviewing: of('reviewing'),
    checking: of('checking'),
    'cleaning and reconditioning': of('cleaning and reconditioning'),
    exchanging: of('exchanging'),
    'locating and relocating': of('locating and relocating'),
    hopping: of('hopping'),
    'preparing and setting up': of('preparing and setting up'),
    'warming up and settling': of('warming up and settling'),
    'waiting for a booking': of('waiting for a booking'),
    'waiting for stock': of('waiting for stock'),
    'waiting for the operator': of('waiting for the operator'),
  };
}
