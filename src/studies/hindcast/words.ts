import { average } from '../../statistics/numbers.js';
import { numberText, percentText, PLAIN, type Scale, SHARE, timeText } from '../../wording/numbers.js';
import { capital, counted, listed, quoted } from '../../wording/phrases.js';
import type { Calibration, Hindcast, Placed, Recorded } from './results.js';

export const NAMES: Readonly<Record<Recorded, string>> = {
  time: 'instrument time',
  operatorTime: 'operator time',
  tips: 'tips',
  attempts: 'attempts',
  yield: 'apparent yield',
};

const SCALES: Readonly<Partial<Record<Recorded, Scale>>> = { yield: SHARE };

export function valueText(measure: Recorded, value: number): string {
  return measure === 'time' || measure === 'operatorTime'
    ? timeText(value)
    : numberText(value, SCALES[measure] ?? PLAIN);
}

/** Probability below which that much distance is taken for more than chance, over all measures together (Bonferroni). */
const LEVEL = 0.05;

/** Campaigns that are told one by one; more stand in the table. */
const MOST_TOLD = 2;

/** Mean shares that are still in the middle. */
const MIDDLE = [0.35, 0.65] as const;

function wayText(mean: number): string {
  if (mean < MIDDLE[0]) return 'campaigns come to less than the scenario predicts';
  if (mean > MIDDLE[1]) return 'campaigns come to more than the scenario predicts';
  return 'campaigns spread otherwise than the scenario predicts';
}

/** Whether the scenario can be trusted. */
export function answerOf(placed: readonly Placed[], calibration: readonly Calibration[]): Hindcast['answer'] {
  const outside = placed.filter(({ share }) => share < 0.025 || share > 0.975);
  const campaigns = [...new Set(placed.map(({ campaign }) => campaign))];
  const tests = calibration.flatMap(({ test, measure }) => (test === null ? [] : [{ measure, ...test }]));
  const failed = tests.filter(({ pValue }) => pValue * tests.length < LEVEL);
  const sharesOf = (measure: Recorded) => placed.filter((each) => each.measure === measure).map(({ share }) => share);
  const aside = tests.filter((test) => {
    const mean = average(sharesOf(test.measure));
    return !failed.includes(test) && (mean < MIDDLE[0] || mean > MIDDLE[1]);
  });
  const headline = [
    trustSentence(outside, failed.length, tests.length, campaigns.length),
    ...failed.map(
      ({ measure, pValue }) =>
        `${capital(NAMES[measure])}: ${wayText(average(sharesOf(measure)))} (p = ${numberText(pValue)}, Kolmogorov’s distance).`,
    ),
    ...asideSentences(aside.map(({ measure }) => ({ measure, mean: average(sharesOf(measure)) }))),
  ];
  return {
    headline,
    remarks: [],
    findings: campaigns.length <= MOST_TOLD ? placed.map(placedSentence) : calibration.map(calibrationSentence),
    decided: failed.length === 0 && (tests.length > 0 || outside.length === 0),
  };
}

/** What lies to one side, no farther than chance and the uncertain values bring it: a sentence for either side. */
function asideSentences(aside: readonly { readonly measure: Recorded; readonly mean: number }[]): readonly string[] {
  return ([false, true] as const).flatMap((isHigh) => {
    const names = aside.filter(({ mean }) => mean > MIDDLE[1] === isHigh).map(({ measure }) => NAMES[measure]);
    return names.length === 0
      ? []
      : `${capital(listed(names))}: ${isHigh ? 'high' : 'low'} in the prediction, but no farther than chance and the uncertain values allow.`;
  });
}

function placedSentence({ campaign, measure, found, predicted, share }: Placed): string {
  const [low, high] = predicted.most.map((end) => valueText(measure, end));
  return `${quoted(campaign)}: ${NAMES[measure]} ${valueText(measure, found)} lies above ${percentText(share)} of what was predicted (middle 95 %: ${low} to ${high}).`;
}

function calibrationSentence({ measure, campaigns, inHalf, inMost }: Calibration): string {
  return `${capital(NAMES[measure])}: ${inHalf} of ${counted(campaigns, 'campaign')} in the middle 50 % of what was predicted, ${inMost} in the middle 95 %.`;
}

function trustSentence(outside: readonly Placed[], failed: number, tested: number, campaigns: number): string {
  if (failed > 0)
    return 'The campaigns do not lie as the scenario predicts; put it right before you rely on it: the command fit takes lifetimes from a log.';
  if (outside.length > 0 && tested === 0)
    return `Outside the middle 95 %: ${listed(outside.map(({ campaign, measure }) => `${NAMES[measure]} of ${quoted(campaign)}`))}. One in twenty does so by chance.`;
  if (tested > 0) return 'The test finds nothing against the scenario.';
  return `Nothing here speaks against the scenario; ${counted(campaigns, 'campaign')} can say little, five or more are tested together.`;
}
