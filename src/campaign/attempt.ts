import { declaredOf } from '../probe/causes.js';
import { PURPOSES } from '../chance/luck.js';
import { microseconds } from '../kernel/clock.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import type { Workplace } from './workplace.js';
import { act, type Act, either, type Lines, step, type Test, when } from './procedure.js';
import type { Wait } from './wait.js';

/** The attempt that is judged. */
function takeOf({ scan }: Workplace) {
  const { take } = scan;
  if (take === null) throw new Error('Nothing has been scanned.');
  return take;
}

const wasStopped: Test = ({ scan }) => scan.stoppedBy !== null;
const isOperatorThere: Test = ({ context, model, scheduler }) =>
  scheduler.now < scheduler.calmUntil || (context.isAttended && model.bookings.isOpen(scheduler.now));
const hasFailedCheck: Test = ({ mounted }) => mounted.judgement === 'failed a check';

const flagStopped: Act = (at) => {
  const take = takeOf(at);
  const { stoppedBy } = at.scan;
  at.mounted.seenBroken ||= stoppedBy !== null && declaredOf(stoppedBy).effect.breaks;
  at.noticing.flag(take, take.start);
};

const leaveForLater: Act = (at) => {
  at.noticing.leaveForLater(takeOf(at));
};

const trustUnlessFlagged: Act = (at) => {
  if (takeOf(at).flaggedAt === null && at.scheduler.reviews.isEmpty) at.mounted.trusted();
};

const judge: Act = (at) => {
  at.noticing.reviewed(takeOf(at));
  trustUnlessFlagged(at);
};

const scanEnds: Act = ({ scan }) => {
  scan.ended();
};

/** A check judges the tip for the image that comes next, or the last one. */
const lookAhead: Act = (at) => {
  at.due = at.worklist.next() ?? at.due;
};

/** Late reviews may have come in, or the tip left the surface over a closing: what to do next is decided anew. */
function* waitForScan(at: Workplace): Wait {
  const { due, steps, waits, worklist } = at;
  const ready = yield* waits.readyOrChanged(steps.scan.need, due.pass.duration);
  if (ready === 'changed' || worklist.next() !== due || at.isAwayForScan) return 'changed';
  return at.remedyFor(due).what === 'nothing' ? ready : 'changed';
}

/** An operator who is not there reviews on return; one who is there but busy is waited for, as long as the hours last. */
function reviewLines({ noticing }: Scenario): Lines {
  const takes = microseconds(noticing.review.time);
  switch (noticing.review.by) {
    case 'nobody':
      return [act(trustUnlessFlagged)];
    case 'automatic':
      return [step('review', 'measuring', { takes, then: judge })];
    case 'operator':
      return [
        either(
          isOperatorThere,
          [
            step('review', 'measuring', {
              takes,
              wait: ({ waits }) => waits.handsWhileHere(),
              changed: leaveForLater,
              then: judge,
            }),
          ],
          [act(leaveForLater)],
        ),
      ];
  }
}

/** A check of the tip after an attempt that was not flagged, where one is due. */
export function checkIfDue(settings: Scenario): Lines {
  const { check } = settings.noticing;
  if (check === undefined) return [];
  const isCheckDue: Test = (at) => takeOf(at).flaggedAt === null && at.mounted.tip.scansSinceCheck >= check.every;
  return [when(isCheckDue, [act(lookAhead), ...checkTip(settings)])];
}

/** One attempt at an image: scan, then review, then a check where one is due. */
export function takeImage(settings: Scenario): Lines {
  const judged = [...reviewLines(settings), ...checkIfDue(settings)];
  return [
    step('scan', 'measuring', { wait: waitForScan, then: scanEnds }),
    // Nothing stops a scan that nobody watches.
    ...(settings.noticing.watch === undefined ? judged : [either(wasStopped, [act(flagStopped)], judged)]),
  ];
}

/** A check of the tip on a reference structure; nothing where the strategy has none. */
export function checkTip({ noticing: { check } }: Scenario): Lines {
  if (check === undefined) return [];
  return [
    step('check', 'measuring', {
      then: ({ noticing }) => {
        noticing.checked(check);
      },
    }),
  ];
}

/** The retake follows, or after a failed check another check. */
function afterRemedy(settings: Scenario): Lines {
  return [
    act(({ tips }) => {
      tips.showTip();
    }),
    either(hasFailedCheck, checkTip(settings), [
      act(({ mounted }) => {
        mounted.judgement = 'sound';
      }),
    ]),
  ];
}

export function cleanTip(settings: Scenario): Lines {
  const cleaned: Act = ({ mounted, scheduler }) => {
    const { tip } = mounted;
    mounted.cleanings += 1;
    mounted.clearedAt = scheduler.now;
    const u = tip.draw(PURPOSES.cleaning, tip.cleanings);
    tip.cleanings += 1;
    if (u < settings.rules.cleanFirst.success) tip.clean();
  };
  return [step('clean', 'measuring', { then: cleaned }), ...afterRemedy(settings)];
}

export function reconditionTip(settings: Scenario): Lines {
  const { newApex, breaks } = settings.rules.recondition;
  const reconditioned: Act = ({ mounted, scheduler }) => {
    const { tip } = mounted;
    mounted.reconditionings += 1;
    mounted.clearedAt = scheduler.now;
    const u = tip.draw(PURPOSES.reconditioning, tip.reconditionings);
    if (u < breaks) tip.break('reconditioning', scheduler.now);
    else if (u < breaks + newApex) {
      tip.renewApex(tip.reconditionings);
      mounted.radiusRead = 0;
    }
    tip.reconditionings += 1;
  };
  return [step('recondition', 'measuring', { then: reconditioned }), ...afterRemedy(settings)];
}
