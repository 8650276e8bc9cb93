import { LuckTable } from '../../src/chance/luck.js';
import type { CampaignModel, PassModel } from '../../src/campaign/model.js';
import type { ScanOutcome, TipEvent } from '../../src/probe/scan-watch.js';
import { Tip } from '../../src/probe/tip.js';
import { type Plain, plainModel } from '../support/scene.js';

/** Scans last 60 s; the clock of a tip test counts microseconds from 0. */
export const SCAN = 60_000_000;

/** A plan whose only kind has the hazards. */
export function modelWith(hazards: readonly Readonly<Record<string, unknown>>[], plain: Partial<Plain> = {}) {
  return plainModel({ regions: 1, hazards, ...plain });
}

/** A new tip of the first kind, with the luck of its number in a replication. */
export function newTip(model: CampaignModel, { replication = 0, number = 0, seed = 'tips' } = {}): Tip {
  return new Tip(model.kinds[0], number, 0, new LuckTable(seed).replication(replication));
}

export interface Watched {
  readonly outcome: ScanOutcome;
  readonly events: readonly TipEvent[];
}

/** One scan of a pass that starts at `start` microseconds, with every event seen but none noticed unless `stopsAt` says so. */
export function scanOnce(
  tip: Tip,
  pass: PassModel,
  {
    electrical = false,
    start = 0,
    stopsAt,
  }: { readonly electrical?: boolean; readonly start?: number; readonly stopsAt?: () => number } = {},
): Watched {
  const events: TipEvent[] = [];
  const outcome = {
    ...tip.scan(pass, electrical, {
      stopsAt: (event) => {
        events.push(event);
        return stopsAt === undefined ? Infinity : stopsAt();
      },
      timeAt: (fraction) => start + fraction * SCAN,
    }),
  };
  return { outcome, events };
}

/** Scans one after the other; the place of every event, in images since the tip was new, with its cause. */
export function eventsOver(tip: Tip, pass: PassModel, images: number) {
  const scans = Array.from({ length: images }, () => scanOnce(tip, pass));
  return {
    scans,
    events: scans.flatMap(({ events }, image) =>
      events.map(({ cause, at, clearsAt }) => ({ cause, image, at: image + at, clearsAt: image + clearsAt })),
    ),
  };
}
