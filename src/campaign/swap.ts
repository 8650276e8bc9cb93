import { movesOf } from './moves.js';
import { act, type Act, repeat, step, type Test, waitFor, when } from './procedure.js';
import { MARK } from './timesheet.js';
import type { Workflow } from './workflow.js';

const needsNewTip: Test = ({ parked }) => parked === null;
const isSpoiled: Test = ({ isSpoiledInExchange }) => isSpoiledInExchange;

const mount: Act = (at) => {
  at.tips.mount(at.due, at.parked);
};

/** Whether the tip was broken in its exchange is seen at its resonance. A parked one is gone then; what follows is always a new one. */
const lookAtTip: Act = (at) => {
  at.isSpoiledInExchange = at.isMishandled(at.steps.exchange);
  if (!at.isSpoiledInExchange) return;
  at.tips.spoilInHand();
  at.scheduler.timesheet.moveSince(MARK.exchange, 'mishandling');
  at.parked = null;
};

const buyProbe = [
  waitFor((at) => at.stores.takeTip(at.due.pass.kind)),
  act((at) => {
    at.boughtProbe();
  }),
];

/** Swap and relocate: the probe is exchanged by hand. */
export function swap(): Workflow {
  const moves = movesOf({ returning: 'relocate', prepareSample: [], sampleChanged: [], replaceSpecimen: [] });
  return {
    changing: 'exchanging',
    firstStep: 'exchange',
    returning: 'relocate',
    atSurface: { relocate: 'before finding', settle: 'after finding' },
    hasChips: false,
    specimenLoss: 0,
    moves,

    start: [...buyProbe, step('setUp', 'starting')],

    changeTip: [
      ...moves.leave('changing tip'),
      act((at) => {
        at.takeTipOff();
      }),
      repeat(
        [
          when(needsNewTip, buyProbe),
          act((at) => {
            at.beginExchange();
          }),
          step('exchange', 'changing tip', { then: mount }),
          step('align', 'changing tip'),
          step('resonance', 'changing tip', { then: lookAtTip }),
        ],
        isSpoiled,
      ),
      ...moves.putOnAndCome('changing tip'),
      ...moves.findAgain('changing tip'),
      step('settle', 'changing tip'),
    ],
  };
}
