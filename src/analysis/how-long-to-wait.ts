import type { CampaignModel } from '../campaign/model.js';
import { stepTime } from '../campaign/step-model.js';
import { SECOND } from '../kernel/clock.js';
import { DISTURBANCE_KINDS, type DisturbanceKind, Drift } from '../probe/drift.js';
import { listed } from '../wording/phrases.js';
import { timeText } from '../wording/numbers.js';

/** Behind which disturbance, in words. */
export const AFTER: Readonly<Record<DisturbanceKind, string>> = { handling: 'after handling', move: 'after a move' };

/** Whether a path says how long is waited for drift to settle. */
export function isOfWaiting(path: string): boolean {
  return /(?:^|\.)(?:pace\.wait|steps\.settle(?:\..*)?)$/u.test(path);
}

/**
 * Says in one sentence how long a strategy waits after each change: down to which rate, and how many minutes that is where a
 * disturbance starts its median rate and nothing else drifts. Empty where settling is neither down to a rate nor a fixed time.
 */
export function howLongToWait({ steps, drift }: Pick<CampaignModel, 'steps' | 'drift'>): string {
  const { until, isFixed } = steps.settle;
  if (until === null)
    return isFixed ? `That is ${timeText(stepTime(steps.settle, 0.5) / SECOND)} of settling after each change.` : '';
  const waits = DISTURBANCE_KINDS.flatMap((kind) => {
    const first = drift?.first[kind] ?? null;
    if (drift === null || first === null) return [];
    const alone = new Drift(drift.course);
    alone.disturb(kind, first.median, 0);
    return [`${timeText(alone.waitUntil(until, 0) / SECOND)} ${AFTER[kind]}`];
  });
  const rate = `That is to wait after each change until drift has come down to ${Number(until.toPrecision(3))} nm/s`;
  return waits.length === 0
    ? `${rate}; nothing drifts here, so nobody waits.`
    : `${rate}: typically ${listed(waits)}, the steps in between included.`;
}
