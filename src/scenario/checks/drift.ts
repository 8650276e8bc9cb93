import { isAccepted } from '../../probe/quality.js';
import { scanTimeOf } from '../../probe/scan-load.js';
import { aboutQuantity } from '../quantity.js';
import { untilOf } from '../schema/steps.js';
import { type Check, error, type Finding, ofEachPass, warning } from './finding.js';

/** A wait for drift that the workflow does not have would end at once. */
export const waitsForNoDrift: Check = ({ workflows, rules }, workflow) => {
  const { drift, steps } = workflows[workflow];
  if (drift !== undefined) return [];
  const waits = [
    { until: untilOf(steps.settle), at: ['workflows', workflow, 'steps', 'settle', 'until'] },
    {
      until: rules.settleCritical === undefined ? undefined : untilOf(rules.settleCritical),
      at: ['rules', 'settleCritical', 'until'],
    },
  ];
  return waits.flatMap(({ until, at }) =>
    until === undefined
      ? []
      : [
          error(
            `waits until drift has come down to ${aboutQuantity('rate', until)}, though the workflow has none; \`workflows.${workflow}.drift\` is wanted, or a settling time`,
            at,
          ),
        ],
  );
};

/** Drift in one workflow alone makes the other look better than it is. */
export const driftInOneWorkflowAlone: Check = ({ workflows }, workflow) => {
  const other = workflow === 'swap' ? 'hop' : 'swap';
  if (workflows[workflow].drift !== undefined || workflows[other].drift === undefined) return [];
  return [
    warning(
      `drift is given for \`${other}\` and not for \`${workflow}\`, whose images then never drift; \`workflows.${workflow}.drift\` is wanted`,
      ['workflows', other, 'drift'],
    ),
  ];
};

/** A pass that the steady rate alone displaces too far is never good, however long one waits. */
export const steadyDriftThatSpoilsAll: Check = (settings, workflow) => {
  const steady = settings.workflows[workflow].drift?.steady ?? 0;
  return ofEachPass(settings, (pass, index, { called }): readonly Finding[] => {
    const { driftTolerance } = pass;
    const displacement = steady * scanTimeOf(pass, settings.pace.scan);
    if (driftTolerance === undefined || isAccepted(pass, driftTolerance / Math.max(displacement, driftTolerance)))
      return [];
    return [
      error(
        `steady drift alone displaces an image of the pass ${called} by ${aboutQuantity('length', displacement)}, more than it bears (${aboutQuantity('length', driftTolerance)} at quality 1, and at least ${pass.accept} is accepted)`,
        ['plan', 'passes', index, 'driftTolerance'],
        ['workflows', workflow, 'drift', 'steady'],
        ['pace', 'scan'],
      ),
    ];
  });
};

/** Hands act on a tip at the approach; in other hazards their exponent would do nothing. */
export const handsOffTheApproach: Check = ({ tips }) =>
  Object.entries(tips).flatMap(([kind, { hazards }]) =>
    hazards.flatMap(({ per, acceleration }, index) =>
      per === 'approach' || acceleration.hands === undefined
        ? []
        : [
            error(`acts on hazards per approach only, and this one is counted per ${per}; leave it out`, [
              ...['tips', kind, 'hazards'],
              index,
              ...['acceleration', 'hands'],
            ]),
          ],
    ),
  );
