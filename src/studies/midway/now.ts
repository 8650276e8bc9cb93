import type { KnownCampaign, KnownInstrument, KnownTip } from '../../execution/midway/known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import { numberInSample, sampleText } from '../../scenario/samples.js';
import { momentName } from './moment.js';
import type { InstrumentNow, Now, RulesNow, TipNow } from './results.js';
import { nameInSample } from './place-names.js';

const MOST_NEXT = 12;

/** How the campaign stands, as reports tell it. */
export function nowOf(model: CampaignModel, known: KnownCampaign): Now {
  const { attempts } = model.settings.noticing;
  const count = (of: (image: KnownCampaign['images'][number]) => boolean) => known.images.filter(of).length;
  return {
    clock: momentName(known.now),
    images: {
      planned: known.images.length,
      kept: count(({ fate }) => fate === 'kept'),
      unreviewed: count(({ fate }) => fate === 'unreviewed'),
      toRetake: count(({ fate, takes }) => fate === 'flagged' && takes < attempts),
      givenUp: count(({ fate, takes }) => fate === 'flagged' && takes >= attempts),
      notYet: count(({ fate }) => fate === 'not yet'),
    },
    instruments: known.instruments.map((instrument, number) => instrumentNow(model, known, instrument, number)),
  };
}

function instrumentNow(
  model: CampaignModel,
  known: KnownCampaign,
  instrument: KnownInstrument,
  number: number,
): InstrumentNow {
  const { standing, sample, region, tip, parked } = instrument;
  const isNamed = model.samples.length > 1;
  const next = nextImages(model, known, instrument, model.shares[number]).slice(0, MOST_NEXT);
  const samples = [...new Set(next.map((image) => image.sample))];
  return {
    standing,
    sample: sample === null || !isNamed ? null : sampleText(model.samples[sample]),
    region: region === null ? null : numberInSample(model.samples, { sample: sample ?? 0, region }),
    tip: tip === null ? null : tipNow(model, tip),
    parked: parked.map((one) => tipNow(model, one)),
    next: samples.map((each) => ({
      sample: isNamed ? sampleText(model.samples[each]) : null,
      images: next.filter((image) => image.sample === each).map((image) => nameInSample(model, image)),
    })),
  };
}

/** What is to be taken again in the region in place, then sample by sample, from the one that is on, its plan and its repeat list. */
function nextImages(
  { samples, settings }: CampaignModel,
  known: KnownCampaign,
  { sample, lostSamples, region }: KnownInstrument,
  share: readonly ImageModel[],
): readonly ImageModel[] {
  const open = share.filter((image) => !lostSamples.includes(image.sample));
  const flagged = open.filter((image) => {
    const { fate, takes } = known.images[image.number];
    return fate === 'flagged' && takes < settings.noticing.attempts;
  });
  const all = [...samples.keys()];
  const from = sample ?? 0;
  const inOrder = [...all.slice(from), ...all.slice(0, from)];
  return [
    ...flagged.filter((image) => image.region === region),
    ...inOrder.flatMap((each) => [
      ...open.filter((image) => image.sample === each && known.images[image.number].fate === 'not yet'),
      ...flagged.filter((image) => image.sample === each && image.region !== region),
    ]),
  ];
}

function tipNow(
  model: CampaignModel,
  { kind, use, isChecked, since, flaggedImage, radius, judgement }: KnownTip,
): TipNow {
  return {
    kind: model.kinds[kind].name,
    ...use,
    checkedAgo: isChecked ? since.length + (flaggedImage === null ? 0 : 1) : null,
    radius,
    judged: judgement,
  };
}

/** What the strategy says is done at the instrument. */
export function rulesOf({ settings }: CampaignModel): RulesNow {
  const { noticing, rules, plan, bookings } = settings;
  const { check, watch, review, attempts } = noticing;
  return {
    check:
      check === undefined ? null : { every: check.every, onNew: check.onNew, repeatSuspects: check.repeatSuspects },
    after: rules.after === undefined ? null : limitText(rules.after),
    radiusAbove: rules.radiusAbove ?? null,
    reviewBy: review.by,
    watch: watch === undefined ? null : { by: watch.by, causes: watch.causes },
    attempts,
    cleanings: rules.cleanFirst.tries,
    reconditionings: rules.recondition.tries,
    critical: plan.passes.filter(({ critical }) => critical).map(({ name }) => name),
    unattended: bookings.unattended,
  };
}

function limitText({
  amount,
  unit,
}: {
  readonly amount: number;
  readonly unit: 'image' | 'distance' | 'hour';
}): string {
  const words = { image: amount === 1 ? 'image' : 'images', distance: 'mm of path', hour: 'h of scanning' };
  return `${Number(amount.toPrecision(6))} ${words[unit]}`;
}
