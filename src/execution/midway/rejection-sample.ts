import { type Luck, PURPOSES } from '../../chance/luck.js';
import { normalScore } from '../../chance/scores.js';
import { microseconds } from '../../kernel/clock.js';
import { agedTip } from '../../probe/aged-tip.js';
import { imageQuality, isGood, startingQuality } from '../../probe/image.js';
import type { ScanWatch } from '../../probe/scan-watch.js';
import type { Tip } from '../../probe/tip.js';
import type { TipState } from '../../probe/tip-state.js';
import type { KnownTip } from './known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';

/** Pasts drawn for one tip, at the most, until one fits what was seen. */
const MOST_TRIES = 1000;
/** Each try draws as another tip would: numbers of tips that are really put on stay below this. */
const TIPS_PER_TRY = 1_048_576;

/** What may have happened to a tip, unnoticed. */
export interface Past {
  readonly tip: TipState;
  /** True quality of its unflagged takes since it was last known to be sound, by image. */
  readonly qualities: ReadonlyMap<number, number>;
  /** No past that was drawn fits what was seen, so the tip is taken as sound now. */
  readonly isGuess: boolean;
}

/**
 * Draws what a tip has been through since it was last known to be sound: its lives given that they had lasted until then,
 * then its takes since, one by one, with whatever came unnoticed. A past is taken with the chance that watching, reviews
 * and checks would have let it look as it did, and drawn again otherwise, so that it follows its distribution given what
 * was seen. What cleaning may have cleared in between is left out.
 */
export function rejectionSample(model: CampaignModel, known: KnownTip, whose: TipLuck): Past {
  for (let tries = 1; tries <= MOST_TRIES; tries += 1) {
    const past = new Trial(model, known, { ...whose, number: whose.number + tries * TIPS_PER_TRY }).play();
    if (past !== null) return past;
  }
  return soundNow(model, known, { ...whose, number: whose.number + TIPS_PER_TRY });
}

/** Whose luck a tip has. */
export interface TipLuck {
  readonly luck: Luck;
  readonly instrument: number;
  readonly number: number;
}

/** One past of one tip, and whether it fits. */
class Trial {
  private fits = true;
  private asked = 0;

  constructor(
    private readonly model: CampaignModel,
    private readonly known: KnownTip,
    private readonly whose: TipLuck,
  ) {}

  /** Null where it does not fit. */
  play(): Past | null {
    const { known, model } = this;
    const { images } = model;
    const replayed = known.flaggedImage === null ? known.since : [...known.since, known.flaggedImage];
    const tip = soundTip(model, known, this.whose, replayed);
    const { check } = model.settings.noticing;
    const first = images[known.since.at(0) ?? known.flaggedImage ?? this.anyImage()];
    if (known.isChecked && check !== undefined) this.mayPass(isSoundFor(first, tip), check);
    const qualities = new Map<number, number>();
    let region = known.isChecked ? first.region : null;
    for (const image of known.since.map((place) => images[place])) {
      const quality = this.taken(tip, image, region);
      region = image.region;
      qualities.set(image.number, quality);
      if (model.settings.noticing.review.by !== 'nobody')
        this.mayPass(isGood(image.pass.demand, quality), model.settings.noticing.review);
      if (!this.fits) return null;
    }
    if (known.flaggedImage !== null) {
      const image = images[known.flaggedImage];
      const quality = this.taken(tip, image, region);
      this.mayFail(isGood(image.pass.demand, quality), model.settings.noticing.review);
    }
    const last = images[known.since.at(-1) ?? first.number];
    if (known.judgement === 'failed a check' && check !== undefined) this.mayFail(isSoundFor(last, tip), check);
    if (!this.fits) return null;
    return { tip: asKnown(tip.state, known), qualities, isGuess: false };
  }

  /** One take, unwatched or at least unstopped; gives its true quality. */
  private taken(tip: Tip, image: ImageModel, region: number | null): number {
    const { pass } = image;
    const { demand, duration } = pass;
    if (image.region !== region) tip.approach(pass, 0);
    const { watch } = this.model.settings.noticing;
    const unseen: ScanWatch = {
      timeAt: () => 0,
      stopsAt: (event) => {
        if (watch?.causes.includes(event.cause) !== true) return Infinity;
        const seenAt = event.at + microseconds(watch.delay) / duration;
        if (seenAt < Math.min(1, event.clearsAt)) this.happens(1 - watch.sensitivity);
        return Infinity;
      },
    };
    const { radius, state } = tip.scan(pass, demand.electrical, unseen);
    return imageQuality(demand, radius, state);
  }

  /** Something good or bad was not flagged. */
  private mayPass(good: boolean, { sensitivity, falseAlarm }: Judging): void {
    this.happens((1 - (good ? falseAlarm : sensitivity)) / (1 - Math.min(falseAlarm, sensitivity)));
  }

  /** Something good or bad was flagged. */
  private mayFail(good: boolean, { sensitivity, falseAlarm }: Judging): void {
    const most = Math.max(falseAlarm, sensitivity);
    if (most > 0) this.happens((good ? falseAlarm : sensitivity) / most);
  }

  /** What was seen has this chance, up to a factor that is the same for all pasts. */
  private happens(chance: number): void {
    if (chance >= 1) return;
    this.asked += 1;
    this.fits &&= uniform(this.whose, this.known.kind, this.asked) < chance;
  }

  private anyImage(): number {
    return this.model.images.findIndex(({ pass }) => pass.kind === this.known.kind);
  }
}

interface Judging {
  readonly sensitivity: number;
  readonly falseAlarm: number;
}

function isSoundFor({ pass }: ImageModel, tip: Tip): boolean {
  return isGood(pass.demand, startingQuality(pass.demand, tip));
}

function uniform({ luck, instrument, number }: TipLuck, kind: number, index: number): number {
  return luck.uniform(PURPOSES.hindsight, instrument, kind, number, index);
}

/**
 * The tip before the takes that it has made since, by when it was sound: new where it was not used before, in no unit. What
 * people count beyond those takes came before them. Earlier scans are taken as shared evenly between the passes of its kind.
 */
function soundTip(model: CampaignModel, known: KnownTip, whose: TipLuck, since: readonly number[]): Tip {
  const { kind, use, radius, isChecked } = known;
  const scans = since.map((image) => model.images[image]);
  const total = (of: (image: ImageModel) => number) => scans.reduce((sum, image) => sum + of(image), 0);
  const isMove = (i: number) => (i === 0 ? !isChecked : scans[i].region !== scans[i - 1].region);
  const moves = scans.filter((_, i) => isMove(i)).length;
  return agedTip(model.kinds[kind], whose.number, whose.instrument, whose.luck, {
    use: {
      images: Math.max(0, use.images - scans.length),
      path: Math.max(0, use.path - total(({ pass }) => pass.path)),
      hours: Math.max(0, use.hours - total(({ pass }) => pass.scanTime) / 3600),
      approaches: Math.max(0, use.approaches - moves),
    },
    passes: model.passes.filter((pass) => pass.kind === kind),
    radius: radius === null ? null : trueRadius(model, radius, kind, whose),
  });
}

/** An apex radius (nm) that a check may have read so, by the relative error of its reading. */
function trueRadius(model: CampaignModel, read: number, kind: number, whose: TipLuck): number {
  const error = model.settings.noticing.check?.radiusError ?? 0;
  return read / Math.max(0.05, 1 + error * normalScore(uniform(whose, kind, 0)));
}

function soundNow(model: CampaignModel, known: KnownTip, whose: TipLuck): Past {
  const tip = soundTip(model, known, whose, []);
  const qualities = known.since.map((image): [number, number] => {
    const { demand } = model.images[image].pass;
    return [image, imageQuality(demand, tip.radius, 1)];
  });
  return { tip: asKnown(tip.state, known), qualities: new Map(qualities), isGuess: true };
}

/** What people count is as they counted it. */
function asKnown(tip: TipState, { use, since, flaggedImage }: KnownTip): TipState {
  return { ...tip, use, scansSinceCheck: since.length + (flaggedImage === null ? 0 : 1) };
}
