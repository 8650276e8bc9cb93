import { SECOND } from '../kernel/clock.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import type { Workplace } from './workplace.js';
import { movesOf, retract } from './moves.js';
import { act, type Act, either, type Lines, repeat, step, type Test, waitFor, when } from './procedure.js';
import type { Phase } from './steps.js';
import { MARK } from './timesheet.js';
import type { Workflow } from './workflow.js';

const isParked: Test = ({ parked }) => parked !== null;
const needsChip: Test = ({ chip, due }) => chip.isBroken || !chip.hasSite(due.pass.kind);
const isCoarseMoveDue: Test = ({ chip, due }) => chip.isCoarseMoveDue(due.pass.kind);
const isDead: Test = ({ chip }) => !chip.isAlive;
const isToGoOn: Test = ({ chip }) => !chip.isAlive || chip.isBroken;
const isToPrepare: Test = ({ specimens, due }) => specimens.isToPrepare(due.sample);
const isUnprepared: Test = ({ specimens }) => !specimens.isReady;

const openFirstChip: Act = ({ chip, due }) => {
  chip.open();
  chip.begin(due.pass.kind);
};

const chipIsOn: Act = (at) => {
  const { chip, scheduler, steps, tips } = at;
  scheduler.engaged = false;
  tips.discardParked('its chip was exchanged');
  chip.open();
  chip.isBroken = at.isMishandled(steps.chipExchange);
};

const nextSite: Act = ({ chip, due, tips }) => {
  if (chip.take(due.pass.kind)) tips.mount(due, null);
};

const parkedSite: Act = ({ chip, due, tips, parked }) => {
  chip.returnTo(due.pass.kind);
  tips.mount(due, parked);
};

/** A chip that was broken in its exchange turns out to be. */
function lookAtChip(at: Workplace): void {
  const { chip, tips, scheduler } = at;
  if (!chip.isBroken) return;
  tips.spoilInHand();
  scheduler.timesheet.moveSince(MARK.exchange, 'mishandling');
}

const takeLeaveOfDeadSite: Act = ({ scheduler, model, due }) => {
  scheduler.note('dead site', () => `${model.kinds[due.pass.kind].name}: on to the next`);
};

/** Another specimen, prepared until it succeeds. */
function prepareLines(phase: Phase, isAtBench: boolean): Lines {
  return [
    waitFor((at) => at.stores.takeSpecimen(isAtBench)),
    act((at) => {
      at.specimens.begin(at.due.sample);
    }),
    repeat(
      [
        act((at) => {
          at.scheduler.timesheet.begin(MARK.preparation);
        }),
        step('prepare', phase, {
          isAtBench,
          ...(isAtBench ? { wait: (at) => at.waits.operatorForBench() } : {}),
          then: (at) => {
            const { scheduler, specimens } = at;
            specimens.isReady = scheduler.draws.isSuccess;
            if (!specimens.isReady) scheduler.failedSince(MARK.preparation, () => 'the specimen is prepared again');
          },
        }),
      ],
      isUnprepared,
    ),
    act((at) => {
      at.specimens.prepared.add(at.due.sample);
    }),
  ];
}

/** At the bench the specimens of all samples are prepared before the start. */
const prepareAhead: Act = ({ scheduler, specimens, stores, steps }) => {
  const samples = specimens.toPrepare;
  if (samples.length === 0) return;
  stores.takeSpecimensAhead(samples.length);
  for (const sample of samples) {
    specimens.begin(sample);
    do scheduler.aheadOnBench(steps.prepare);
    while (!scheduler.draws.isSuccess);
    specimens.prepared.add(sample);
  }
  const minutes = Math.floor(scheduler.benchTime / (60 * SECOND) + 0.5);
  scheduler.note('prepared', () => `${samples.length} × specimen, before the start, ${minutes} min at the bench`);
};

/** Array-hop: the specimen rides on a lever, a chip of many tips lies on the stage. */
export function hop({ workflows }: Scenario): Workflow {
  const { specimenLoss, prepareAt } = workflows.hop;
  const isAtBench = prepareAt === 'bench';
  const prepareSample = [when(isToPrepare, prepareLines('changing sample', isAtBench))];
  const moves = movesOf({
    returning: 'register',
    prepareSample,
    // The light spot falls on another lever.
    sampleChanged: [step('align', 'changing sample'), step('resonance', 'changing sample')],
    replaceSpecimen: specimenLoss === 0 ? [] : prepareLines('changing tip', isAtBench),
  });
  const takeChip = waitFor((at) => at.stores.takeChip());
  const coarseMove = step('coarseMove', 'changing tip', {
    then: ({ chip }) => {
      chip.coarselyMoved();
    },
  });
  return {
    changing: 'hopping',
    firstStep: 'offset',
    returning: 'register',
    atSurface: { resonance: 'before finding', settle: 'before finding', register: 'before finding' },
    hasChips: true,
    specimenLoss,
    moves,
    // The last specimen may be lost before anybody has looked at the resonance.
    givenUp: lookAtChip,

    start: [
      ...(isAtBench ? [act(prepareAhead)] : prepareSample),
      takeChip,
      step('setUp', 'starting', { then: openFirstChip }),
    ],

    changeTip: [
      ...moves.leave('changing tip'),
      act((at) => {
        at.takeTipOff();
        at.chip.beginChange();
      }),
      either(
        isParked,
        [
          step('offset', 'changing tip'),
          coarseMove,
          act(parkedSite),
          ...moves.putOnAndCome('changing tip'),
          step('resonance', 'changing tip'),
        ],
        [
          repeat(
            [
              when(needsChip, [
                takeChip,
                act((at) => {
                  at.beginExchange();
                }),
                step('chipExchange', 'changing tip', { then: chipIsOn }),
              ]),
              step('offset', 'changing tip', {
                then: ({ chip }) => {
                  chip.hopped();
                },
              }),
              when(isCoarseMoveDue, [coarseMove]),
              act(nextSite),
              ...moves.putOnAndCome('changing tip'),
              either(
                isDead,
                [
                  act(takeLeaveOfDeadSite),
                  when(
                    ({ scheduler }) => scheduler.engaged,
                    [
                      retract(
                        'changing tip',
                        () => undefined,
                        ({ scheduler }) => {
                          scheduler.away(true);
                        },
                      ),
                    ],
                  ),
                ],
                [step('resonance', 'changing tip', { then: lookAtChip })],
              ),
            ],
            isToGoOn,
          ),
        ],
      ),
      step('settle', 'changing tip'),
      ...moves.findAgain('changing tip'),
    ],
  };
}
