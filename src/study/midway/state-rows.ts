import type { KnownCampaign, KnownInstrument, KnownTip } from '../../campaign/known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import { suppliesOf } from '../../campaign/stores.js';
import { momentName } from './moment.js';
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

/** How an image is named in the table: `region 3: islands`. */
export function imageName({ region, pass }: ImageModel): string {
  return `region ${region + 1}: ${pass.demand.pass.name}`;
}

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
      return row('image', imageName(image), fate, takes === 0 ? '' : String(takes));
    }),
    ...known.instruments.flatMap((instrument, number) => {
      const at = several ? String(number + 1) : '';
      return instrumentRows(model, instrument).map(([what, which, value]) => row(what, which, value, '', at));
    }),
  ];
}

type Told = readonly [what: What, which: string, value: string];

function instrumentRows(model: CampaignModel, instrument: KnownInstrument): readonly Told[] {
  const { standing, region, tip, parked, sitesUsed, left } = instrument;
  const hasChip = model.workflow === 'hop' && standing !== 'not begun';
  return [
    ['instrument', '', standing],
    ['region in place', '', region === null ? NONE : String(region + 1)],
    ['tip on', '', tip === null ? NONE : model.kinds[tip.kind].name],
    ...(tip === null ? [] : tipRows(model, tip)),
    ...parked.flatMap((one): readonly Told[] => [
      ['tip parked', '', model.kinds[one.kind].name],
      ...tipRows(model, one),
    ]),
    ...(hasChip ? sitesUsed.map(([kind, sites]): Told => ['sites used', model.kinds[kind].name, String(sites)]) : []),
    ...suppliesOf(model.settings)
      .filter(([what]) => isUsed(what, model))
      .map(([what, { atHand }]): Told => ['left', what, String(left.find(([shelf]) => shelf === what)?.[1] ?? atHand)]),
  ];
}

/** Supplies that the workflow takes from. */
export function isUsed(what: string, { workflow }: CampaignModel): boolean {
  return (workflow === 'hop') === (what === 'chip' || what === 'specimen');
}

function tipRows(model: CampaignModel, tip: KnownTip): readonly Told[] {
  const { use, isChecked, since, flaggedImage, judgement, radius } = tip;
  const kind = model.kinds[tip.kind].name;
  const rounded = (value: number) => String(Number(value.toPrecision(6)));
  const scans = since.length + (flaggedImage === null ? 0 : 1);
  return [
    ['tip use', kind, `${rounded(use.images)} images`],
    ['tip use', kind, `${rounded(use.path)} mm`],
    ['tip use', kind, `${rounded(use.hours)} h`],
    ['tip use', kind, `${rounded(use.approaches)} approaches`],
    ['tip checked', kind, isChecked ? `${scans} images ago` : 'never'],
    ...(radius === null ? [] : [['tip radius', kind, `${rounded(radius)} nm`] as const]),
    ['tip judged', kind, wordFor(judgement, JUDGED_WORDS)],
  ];
}
