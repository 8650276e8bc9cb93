import type { Summary } from '../../analysis/results.js';
import { ALWAYS } from '../../report/cautions.js';
import { cautionsSection, citation, methodSection } from '../../report/page/method.js';
import { picturesSection, planFacts, studyPage } from '../../report/page.js';
import { assumptionsSection } from './page/assumptions.js';
import { KICKER } from './page/headline.js';
import { findingsSection, remarksSection, verdictSection } from './page/verdict.js';
import { html } from '../../report/text.js';
import { EXPLORE_FILE } from '../study.js';
import { numberText } from '../../wording/numbers.js';
import { counted } from '../../wording/phrases.js';

/** The page on which this plan can be changed lies beside the report, which has no script itself. */
const EXPLORE = `<p class="explore"><a href="${EXPLORE_FILE}">Change this plan and see the answer at once</a></p>`;

/** What the page of a comparison holds beside its numbers. */
export interface Beside {
  /** HTML, in the order of the charts; the first one is seen beside the verdict. */
  readonly figures: readonly string[];
  /** The section on parameter uncertainty, where anything says so. */
  readonly unknown: readonly string[];
  /** Whether pictures and the row of each replication were made. */
  readonly isWhole: boolean;
}

/** `report.html` of a comparison, from the verdict down to the assumptions. */
export function reportPage(summary: Summary, { figures: [first = '', ...figures], unknown, isWhole }: Beside): string {
  return studyPage({
    kicker: KICKER,
    record: summary,
    facts: planFacts(summary.scenario, summary.allocation),
    sections: [
      verdictSection(summary, first),
      EXPLORE,
      picturesSection(figures),
      findingsSection(summary),
      ...unknown,
      assumptionsSection(summary),
      cautionsSection(summary.scenario),
      methodSection(summary, isWhole),
    ],
  });
}

/** `brief.html`: what a committee needs, on one page of A4. */
export function briefPage(summary: Summary): string {
  return studyPage({
    kicker: `${KICKER}: brief`,
    record: summary,
    facts: planFacts(summary.scenario, summary.allocation),
    sections: [verdictSection(summary, ''), remarksSection(summary), briefMethod(summary)],
  });
}

function briefMethod(summary: Summary): string {
  const { assumptions, replications, strategies } = summary;
  const assumed = assumptions.filter(({ standing }) => standing === 'assumed').length;
  return `<section aria-labelledby="method">
<h2 id="method">How it was computed</h2>
<p>${html(`Discrete-event simulation of the whole plan, ${numberText(replications)} replications of ${counted(strategies.length, 'strategy', 'strategies')} with common random numbers. It says what follows from ${assumptions.length} values, ${assumed} of which are assumed; all of them are in the report beside this page.`)}</p>
<p class="note">${html(`${ALWAYS} ${citation(summary, `${numberText(replications)} replications`)}`)}</p>
</section>`;
}
