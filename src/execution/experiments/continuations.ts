import { continueCampaign, runCampaign } from '../../campaign/campaign.js';
import type { KnownCampaign } from '../midway/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import { posteriorDraw } from '../midway/posterior-draw.js';
import type { CampaignState } from '../../campaign/state.js';
import { type Luck, LuckTable } from '../../chance/luck.js';
import { isGood, startingQuality } from '../../probe/image.js';
import { Tip } from '../../probe/tip.js';
import type { Strategy } from '../../scenario/load.js';
import { runnable } from '../replicate.js';
import type { ExperimentKind } from '../runner.js';
import { Ending, takenIn } from '../midway/supplies.js';

/** A campaign under way goes on, in one of several ways. */
export interface Course {
  /** The strategy that is followed from now on, by the name of the course. */
  readonly strategy: Strategy;
  /** Every tip that is on is changed at once, before anything else. */
  readonly changesTips: boolean;
}

/**
 * The rest of a campaign under way, on every course from the same hidden state and on the same random streams. Columns of
 * the first course beside its measures: `guessed` and `spoiled` (1 or 0), `used WHAT` and `ended WHAT` of each supply.
 */
export interface ContinuationsExperiment {
  readonly kind: 'continuations';
  /** The strategy that was followed so far. */
  readonly strategy: Strategy;
  readonly known: KnownCampaign;
  readonly courses: readonly Course[];
}

/** The model of a strategy that goes on from a campaign under way. */
export function modelFrom(strategy: Strategy, { now, grantedUntil }: KnownCampaign): CampaignModel {
  const [{ model }] = runnable([strategy]);
  return { ...model, start: now, allocationEnd: grantedUntil };
}

/** Whether some instrument has a tip on that counts as sound, so that it may be spoiled unnoticed. */
export function mayBeSpoiled({ instruments }: KnownCampaign): boolean {
  return instruments.some(({ tip }) => tip?.judgement === 'sound');
}

export const continuations: ExperimentKind<ContinuationsExperiment> = {
  strategiesOf: ({ courses }) => courses.map(({ strategy }) => strategy),
  runnerOf: ({ strategy, known, courses }, seed) => {
    const table = new LuckTable(seed);
    // The past has streams of its own, so that nothing of it comes again.
    const before = new LuckTable(`${seed} (before)`);
    const [{ model: whole }] = runnable([strategy]);
    const models = courses.map((course) => modelFrom(course.strategy, known));
    const [model] = models;
    return {
      parts: courses.length,
      run: (replication, put) => {
        const luck = table.replication(replication);
        let campaign: ReturnType<typeof runCampaign> | null = null;
        const earlier = (image: number): number => {
          campaign ??= runCampaign(whole, before.replication(replication));
          return campaign.images[image].kept?.quality ?? whole.images[image].pass.demand.pass.accept;
        };
        const { state, isGuess } = posteriorDraw(model, known, luck, earlier);
        const hidden = {
          guessed: isGuess ? 1 : 0,
          ...(mayBeSpoiled(known) ? { spoiled: isSpoiled(model, luck, state) ? 1 : 0 } : {}),
        };
        courses.forEach(({ changesTips }, part) => {
          const ending = part === 0 ? new Ending() : null;
          const outcome = continueCampaign(models[part], luck, changesTips ? withTipsGone(state) : state, ending);
          if (ending === null) put(part, outcome);
          else put(part, outcome, { ...hidden, ...takenIn(model, known, outcome, ending.reason) });
        });
      },
    };
  },
};

/** Whether, on any instrument whose tip counts as sound, the next image of the tip's kind would start below its accept. */
function isSpoiled(model: CampaignModel, luck: Luck, { instruments }: CampaignState): boolean {
  return instruments.some(({ tips, worklist }, instrument) => {
    const { mounted } = tips;
    if (mounted?.judgement !== 'sound') return false;
    const { turns, again, repeats } = worklist;
    const kind = model.kinds[mounted.kind];
    const tip = new Tip(kind, mounted.number, instrument, luck, mounted.tip);
    const due = [...again, ...turns, ...repeats]
      .map((image) => model.images[image])
      .find(({ pass }) => pass.kind === kind.index);
    return due !== undefined && !isGood(due.pass.demand, startingQuality(due.pass.demand, tip));
  });
}

/** Every tip that is on goes at the next take, uncleaned, as one that was seen to break. */
function withTipsGone({ instruments }: CampaignState): CampaignState {
  return {
    instruments: instruments.map((instrument) => {
      const { mounted } = instrument.tips;
      if (mounted === null) return instrument;
      const judged = { ...mounted, judgement: 'flagged by an image' as const, seenBroken: true };
      return { ...instrument, tips: { ...instrument.tips, mounted: judged } };
    }),
  };
}
