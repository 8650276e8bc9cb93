import type { KnownCampaign, KnownInstrument, KnownTip } from '../../execution/midway/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import { suppliesOf } from '../../campaign/supplies.js';
import { isUsed } from '../../execution/midway/supplies.js';
import { numberInSample, sampleText } from '../../scenario/samples.js';
import { momentName } from './moment.js';
import { imageName } from './place-names.js';
import { JUDGED_WORDS, NONE, wordFor } from './state-words.js';

/** Columns of a table that tells how a campaign stands; the last one may be left out where there is one instrument. */
export const STATE_COLUMNS = ['what', 'which', 'value', 'takes', 'instrument'] as const;

/** A further one, which nothing is read of. */
export const NOTE_COLUMN = 'note';

/** What a row may tell. */
export const WHATS = [
  'now',
  'granted left',
  'image',
  'instrument',
  'sample on',
  'sample lost',
  'region in place',
  'tip on',
  'tip parked',
  'tip use',
  'tip checked',
  'tip radius',
  'tip judged',
  'sites used',
  'left',
] as const;
export type What = (typeof WHATS)[number];

/** How a campaign stands, as rows under STATE_COLUMNS; read back, they tell the same. */
export function stateRows(model: CampaignModel, known: KnownCampaign): readonly (readonly string[])[] {
  const row = (what: What, which: string, value: string, takes = '', instrument = ''): readonly string[] => [
    what,
    which,
    value,
    takes,
    instrument,
  ];
  const several = known.instruments.length > 1;
  return [
    [...STATE_COLUMNS],
    row('now', '', momentName(known.now)),
    ...model.images.map((image) => {
      const { fate, takes } = known.images[image.number];
      return row('image', imageName(model, image), fate, takes === 0 ? '' : String(takes));
    }),
    ...known.instruments.flatMap((instrument, number) => {
      const at = several ? String(number + 1) : '';
      return instrumentRows(model, instrument).map(([what, which, value]) => row(what, which, value, '', at));
    }),
  ];
}

type Told = readonly [what: What, which: string, value: string];

function instrumentRows(model: CampaignModel, instrument: KnownInstrument): readonly Told[] {
  const { standing, tip, parked, sitesUsed, left } = instrument;
  const hasChip = model.workflow === 'hop' && standing !== 'not begun';
  return [
    ['instrument', '', standing],
    ...placeRows(model, instrument),
    ['tip on', '', tip === null ? NONE : model.kinds[tip.kind].name],
    ...(tip === null ? [] : tipRows(tip, model.kinds[tip.kind].name)),
    ...parked.flatMap((one, i): readonly Told[] => {
      const kind = model.kinds[one.kind].name;
      const isOnly = [tip, ...parked].filter((other) => other?.kind === one.kind).length === 1;
      const label = parkedLabel(kind, isOnly ? null : i);
      return [['tip parked', isOnly ? '' : label, kind], ...tipRows(one, label)];
    }),
    ...(hasChip ? sitesUsed.map(([kind, sites]): Told => ['sites used', model.kinds[kind].name, String(sites)]) : []),
    ...suppliesOf(model.settings)
      .filter(([what]) => isUsed(what, model))
      .map(([what, { atHand }]): Told => ['left', what, String(left.find(([shelf]) => shelf === what)?.[1] ?? atHand)]),
  ];
}

/** What rows call a parked tip: by its kind, or, where another tip of that kind is held, by its place among those that are parked, too. */
export function parkedLabel(kind: string, place: number | null): string {
  return place === null ? kind : `${kind}, parked ${place + 1}`;
}

/** The sample is told only where there are several. */
function placeRows(model: CampaignModel, { sample, lostSamples, region }: KnownInstrument): readonly Told[] {
  const inSample = region === null ? null : numberInSample(model.samples, { sample: sample ?? 0, region });
  const place: Told = ['region in place', '', inSample === null ? NONE : String(inSample)];
  if (model.samples.length === 1) return [place];
  return [
    ['sample on', '', sample === null ? NONE : sampleText(model.samples[sample])],
    ...lostSamples.map((lost): Told => ['sample lost', '', sampleText(model.samples[lost])]),
    place,
  ];
}

function tipRows(tip: KnownTip, label: string): readonly Told[] {
  const { use, isChecked, since, flaggedImage, judgement, radius } = tip;
  const rounded = (value: number) => String(Number(value.toPrecision(6)));
  const scans = since.length + (flaggedImage === null ? 0 : 1);
  return [
    ['tip use', label, `${rounded(use.images)} images`],
    ['tip use', label, `${rounded(use.path)} mm`],
    ['tip use', label, `${rounded(use.hours)} h`],
    ['tip use', label, `${rounded(use.approaches)} approaches`],
    ['tip checked', label, isChecked ? `${scans} images ago` : 'never'],
    ...(radius === null ? [] : [['tip radius', label, `${rounded(radius)} nm`] as const]),
    ['tip judged', label, wordFor(judgement, JUDGED_WORDS)],
  ];
}
