import { DataTable } from '../../page/parts/figure.js';
import { reversalsTable } from '../../studies/compare/page/verdict.js';
import { memo } from './memo.js';
import type { Answer } from '../messages.js';
import { Changes } from './changes.js';
import { Cloud } from './cloud.js';
import { Completion } from './completion.js';
import { Differences } from './differences.js';
import { Hours } from './hours.js';
import { HeadlineTable, Verdict } from './verdict.js';

const REVERSALS =
  'Unmeasured values at whose limits a clear difference reverses, or its interval comes to include 0; the weightiest first';

/** What is known of the setting: drawn anew with each further batch of campaigns, and not in between. */
export const AnswerPane = memo(({ answer }: { readonly answer: Answer }) => {
  const { summary, isTried, against, pinned } = answer;
  return (
    <>
      <Verdict summary={summary} isTried={isTried} />
      {against.map((each) => (
        <Changes against={each} summary={summary} />
      ))}
      {pinned.map((each) => (
        <HeadlineTable summary={each.summary} caption={`Setting ${each.slot}, pinned`} />
      ))}
      {isTried && summary.verdict.reversals.length > 0 ? (
        <details class="reversals">
          <summary>Where it reverses: the unmeasured values that are worth measuring first</summary>
          <DataTable caption={REVERSALS} table={reversalsTable(summary)} />
        </details>
      ) : null}
      <Completion summary={summary} />
      <Hours summary={summary} />
      <Differences summary={summary} />
      <Cloud summary={summary} />
    </>
  );
});
