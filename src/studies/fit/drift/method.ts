import type { DriftFitSummary } from './results.js';
import { numberText, SHARE } from '../../../wording/numbers.js';
import { recordFacts } from '../../../report/study-facts.js';
import { timeText } from './words.js';

export const DRIFT_INTRO =
  'Each row of the table is a reading after a disturbance: how far all has moved, or how fast it moves, and how long after the disturbance ended. What follows holds for the instrument, the samples and the room of these readings, and for no others.';

/** What was computed and how, as pairs of plain text. */
export function driftFacts(summary: DriftFitSummary): readonly (readonly [string, string])[] {
  const { confidence, form, settling, kinds, steadyFrom, log } = summary;
  const isRate = form === 'rate';
  return [
    [
      'Model',
      `After a disturbance the rate is v₀·exp(−t/τ) + v∞, with v₀ lognormal over disturbances, one τ and one v∞, and normal errors of the readings. Maximum likelihood, each disturbance’s own v₀ integrated out${isRate ? '' : '; where its displacements start from is not known, and taken out too'}. Kinds of disturbance are fitted apart.`,
    ],
    [
      'Errors',
      log.columns.some(({ role }) => role === 'error')
        ? 'Readings weigh by their stated errors; by how much these are off as a whole is estimated.'
        : 'All readings are taken to err alike; by how much is estimated.',
    ],
    [
      'Intervals',
      `${numberText(confidence.level, SHARE)}, from the profile likelihood; they are two-sided, one at a time.`,
    ],
    ...(kinds.length > 1 && steadyFrom !== null
      ? [
          [
            'Steady rate',
            `A scenario has one for each workflow: the one that the readings after ${steadyFrom} give, which tell it best.`,
          ] as const,
        ]
      : []),
    [
      'Settled rates',
      `From ${timeText(settling)} on. The average of a disturbance is ${isRate ? 'the mean of its readings' : 'the way from its first displacement to its last over the time between'}, its maximum ${isRate ? 'the greatest reading' : 'the greatest rate from one displacement to the next'}; typical is the median over disturbances. Errors of readings are in the maximum. Drift rate, settling time, typical average and typical maximum are terms of ISO 11039, of which only the terms are used: how it has them measured is not followed here.`,
    ],
    ...recordFacts({ ...summary, seed: null }),
  ];
}

/** How to cite a fit, and where the rest is; `shown` makes what a user has named safe for its place. */
export function driftCitation({ tool, log }: DriftFitSummary, shown: (text: string) => string): string {
  return `Cite as: ${tool.name}, version ${tool.version}, fit of drift after disturbances; readings “${shown(log.file)}”. The text for a proposal is in \`methods.md\`, what goes into a scenario in \`drift.yaml\`, the chart in \`charts/\`, all numbers in \`summary.json\`.`;
}
