import type { CampaignModel } from '../../campaign/model.js';
import { sampleText } from '../../scenario/samples.js';
import { nothingDone } from './made-state.js';
import { NOTE_COLUMN, parkedLabel, STATE_COLUMNS, stateRows, type What } from './state-rows.js';
import { IMAGE_WORDS, JUDGED_WORDS, NONE, STANDING_WORDS, type Words } from './state-words.js';

/** The table to fill in, with everything still to be done, room for the tip that is on, and what may stand in each kind of row. */
export function templateRows(model: CampaignModel): readonly (readonly string[])[] {
  const [, ...rows] = stateRows(model, nothingDone(model));
  const noted = new Set<string>();
  return [
    [...STATE_COLUMNS, NOTE_COLUMN],
    ...rows
      .flatMap((row) => [row, ...emptyAfter(model, row)])
      .map((row) => {
        const [what, which, value, ...more] = row;
        const note = noted.has(what) ? '' : noteOf(model, what);
        noted.add(what);
        return [what, which, FOLLOWS.has(what) ? '' : value, ...more, note];
      }),
  ];
}

/** What follows from the rest where nothing is said. */
const FOLLOWS: ReadonlySet<string> = new Set<What>(['instrument', 'sample on', 'region in place']);

/** Rows without a value, which tell nothing as long as nothing is put there. */
function emptyAfter(model: CampaignModel, row: readonly string[]): readonly (readonly string[])[] {
  const [what] = row;
  const empty = (name: What, which = ''): readonly string[] => [name, which, '', '', row[4]];
  if (what === 'now' && model.allocationEnd !== null) return [empty('granted left')];
  if (what !== 'tip on') return [];
  return [
    ...[empty('tip use'), empty('tip use'), empty('tip checked'), empty('tip radius'), empty('tip judged')],
    empty('tip parked'),
    ...(model.workflow === 'hop' ? model.kinds.map(({ name }) => empty('sites used', name)) : []),
  ];
}

function noteOf(model: CampaignModel, what: string): string {
  const { kinds, samples } = model;
  const kindNames = kinds.map(({ name }) => name).join(', ');
  const notes: Readonly<Record<string, string>> = {
    now: 'such as Tue 14:00 or week 2 Tue 14:00',
    'granted left': 'where it is not as planned: such as 2 sessions or 6 h',
    image: `${namesOf(IMAGE_WORDS)}; takes: how often it was scanned`,
    instrument: `${namesOf(STANDING_WORDS)}; left empty: follows from the rest`,
    'sample on': `${sampleText(samples[0])} to ${sampleText(samples[samples.length - 1])}, or ${NONE}; left empty: that of the last image`,
    'region in place': `its number, or ${NONE}; left empty: that of the last image`,
    'tip on': `${kindNames} or ${NONE}`,
    'tip use': 'of the tip that is on, since new: 12 images, 8.5 mm, 3 h, 4 approaches; a row for each that is known',
    'tip checked': 'scans since its last passed check, or never',
    'tip radius': 'as read in that check, such as 9.5 nm',
    'tip judged': namesOf(JUDGED_WORDS),
    'tip parked': `${kindNames}; a row each, in the order of parking; rows about one have its kind under which (${parkedLabel(kinds[0].name, 0)} where several are of one kind)`,
    'sites used': 'of the chip on the stage, dead ones among them',
    left: 'how many are at hand now',
  };
  return notes[what] ?? '';
}

function namesOf(words: Words<unknown>): string {
  const names = words.map(({ name }) => name);
  return `${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}`;
}
