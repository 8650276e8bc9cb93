import { DISTURBANCE_KINDS, type DisturbanceKind } from '../../../probe/drift.js';
import { rounded, roundedAll } from '../hazard.js';
import type { ScenarioData } from '../hazard-data.js';
import { counted } from '../../../wording/phrases.js';
import type { Uncertainty } from '../results.js';
import type { DriftFitSummary, DriftKindFit, DriftParameters, WorkflowName } from './results.js';

/** Kinds of disturbance that a workflow has: by swap nothing moves but by hand. */
const KINDS: Readonly<Record<WorkflowName, readonly DisturbanceKind[]>> = {
  swap: ['handling'],
  hop: DISTURBANCE_KINDS,
};

type Fitted = DriftKindFit & { readonly parameters: DriftParameters };

function fittedKinds({ kinds }: DriftFitSummary): readonly Fitted[] {
  return kinds.flatMap((fit) => (fit.parameters === null ? [] : [{ ...fit, parameters: fit.parameters }]));
}

/** What goes under `drift` of a workflow, and where each part comes from. */
export interface WorkflowDrift {
  readonly workflow: WorkflowName;
  readonly entries: Readonly<Record<string, string | ScenarioData>>;
  readonly uncertainty: Uncertainty;
  /** By the path of the part. */
  readonly sources: readonly (readonly [string, string])[];
}

/** What was fitted, as the workflows of a scenario hold it; one without a kind that was fitted is left out. */
export function workflowDrifts(summary: DriftFitSummary): readonly WorkflowDrift[] {
  const all = fittedKinds(summary);
  const steady = all.find(({ kind }) => kind === summary.steadyFrom);
  return summary.workflows.flatMap((workflow) => {
    const kinds = all.filter(({ kind }) => KINDS[workflow].includes(kind));
    return kinds.length === 0 ? [] : [workflowDrift(summary, workflow, kinds, steady)];
  });
}

function workflowDrift(
  summary: DriftFitSummary,
  workflow: WorkflowName,
  kinds: readonly Fitted[],
  steady: Fitted | undefined,
): WorkflowDrift {
  const path = `workflows.${workflow}.drift`;
  return {
    workflow,
    entries: {
      ...Object.fromEntries(
        kinds.map(({ kind, parameters: { rate, geometricSd, decay } }) => [
          kind,
          {
            rate: `${rounded(rate.value)} nm/s`,
            geometricSd: rounded(geometricSd.value),
            decay: `${rounded(decay.value)} s`,
          },
        ]),
      ),
      ...(steady === undefined ? {} : { steady: `${rounded(steady.parameters.steady.value)} nm/s` }),
    },
    uncertainty: togetherOf(kinds, steady),
    sources: [
      ...kinds.map((fit) => [`${path}.${fit.kind}`, sourceOf(summary, fit)] as const),
      ...(steady === undefined ? [] : [[`${path}.steady`, sourceOf(summary, steady)] as const]),
    ],
  };
}

function sourceOf({ log, form }: DriftFitSummary, { kind, disturbances, readings }: Fitted): string {
  const dated = log.date === null ? '' : ` (${log.date})`;
  return `readings of drift ${log.file}${dated}, ${counted(disturbances, 'disturbance')} by ${kind}, ${counted(readings, form)}`;
}

/**
 * Kinds are fitted apart, so that values of two of them go together in nothing. What moves start comes last: the rest then comes
 * in the same order in both workflows, and is drawn alike in both.
 */
function togetherOf(kinds: readonly Fitted[], steady: Fitted | undefined): Uncertainty {
  const fits = [...kinds, ...(steady === undefined || kinds.includes(steady) ? [] : [steady])];
  const unordered = fits.flatMap((fit) =>
    fit.uncertainty.of.flatMap((name, index) => {
      const isSteady = name === 'steady';
      const isWritten = isSteady ? fit === steady : kinds.includes(fit);
      return isWritten ? [{ fit, index, name: isSteady ? name : `${fit.kind}.${name}` }] : [];
    }),
  );
  const isOfMove = ({ name }: (typeof unordered)[number]) => name.startsWith('move.');
  const all = unordered.toSorted((a, b) => Number(isOfMove(a)) - Number(isOfMove(b)));
  const between = (row: (typeof all)[number], column: (typeof all)[number]) =>
    row.fit === column.fit ? row.fit.uncertainty.covariance[row.index][column.index] : 0;
  return {
    of: all.map(({ name }) => name),
    covariance: roundedAll(all.map((row) => all.map((column) => between(row, column)))),
  };
}
