import type { FitSummary } from './results.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { recordFacts } from '../../report/study-facts.js';
import { FITTED } from '../../survival/distributions.js';
import { capital, listed } from '../../wording/phrases.js';
import { allCauses } from './report-words.js';
import { distributionName } from './words.js';

/** How a fit works, in plain text. */
export const INTRO =
  'Each row of the log is a tip. Cause by cause, the lifetimes that another cause ended, and those of tips taken off sound, are censored; a tip that was in use before counts from the use at which the log takes it up. Several distributions are fitted by maximum likelihood and compared by Akaike’s criterion. What follows holds for tips, samples and habits like those of the log, and for no others.';

/** What was computed and how, as pairs of plain text. */
export function fitFacts(summary: FitSummary): readonly (readonly [string, string])[] {
  const samples = Math.max(0, ...allCauses(summary).map(({ goodness }) => goodness?.samples ?? 0));
  const { confidence, blunting } = summary;
  return [
    [
      'Curves',
      'Kaplan and Meier (1958) with Greenwood’s variance and log-log intervals; Turnbull (1976) for events known to an interval; Nelson and Aalen; Aalen and Johansen (1978) for all causes together.',
    ],
    [
      'Distributions',
      `${capital(listed(FITTED.map(distributionName)))}, by maximum likelihood for exact, interval-censored, right-censored and left-truncated lives (Lawless, 2nd ed. 2003, chapter 2).`,
    ],
    [
      'Intervals',
      `${numberText(confidence.level, SHARE)}, from the profile likelihood; they are two-sided, one at a time.`,
    ],
    [
      'Choice of distribution',
      'The simplest distribution within 2 of the least AIC; with fewer than five events the exponential. Where load or pace vary and help by AIC, the distribution holds at the reference load and pace 1.',
    ],
    [
      'Goodness of fit',
      samples === 0
        ? 'Not tested, as no bootstrap was asked for.'
        : `Parametric bootstrap of at most ${numberText(samples)} samples, each with the censoring of this one and fitted anew; a small p says that the distribution does not fit the lifetimes. It is the distribution without what load and pace do that is tested, also where they are taken into the hazard.`,
    ],
    ...(blunting.length === 0
      ? []
      : [
          [
            'Blunting',
            `Archard’s law by maximum likelihood with the tips’ own values integrated out, for a cone of half-angle ${numberText(blunting[0].halfAngle, { divisor: 1, unit: 'deg' })}; radii from ${blunting[0].file}.`,
          ] as const,
        ]),
    ...recordFacts(summary),
  ];
}

/** How to cite a fit, and where the rest is; `shown` makes what a user has named safe for its place. */
export function citation({ tool, log, seed }: FitSummary, shown: (text: string) => string): string {
  return `Cite as: ${tool.name}, version ${tool.version}, life analysis of a log of scanning-probe tips; log “${shown(log.file)}”, seed ${shown(seed)}. The text for a proposal is in \`methods.md\`, the hazards in \`hazards.yaml\`, every chart in \`charts/\`, all numbers in \`summary.json\`.`;
}
