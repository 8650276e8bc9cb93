/** What came of making a study again, as text for the terminal. */

import type { Maker } from '../analysis/about.js';
import { counted, listed } from '../wording/phrases.js';
import { platformText, toolText } from './study-facts.js';
import { textTable } from './table.js';
import { plainText, shortened } from './text.js';

/** A place in a summary where it and the one made again differ; undefined where one has nothing there. */
export interface DifferingValue {
  /** Such as `strategies[0].measures.yield.value`. */
  readonly path: string;
  readonly before: unknown;
  readonly now: unknown;
}

export interface Verification {
  /** Base name of the summary. */
  readonly file: string;
  /** The summary is the same to the byte. */
  readonly isSame: boolean;
  readonly values: readonly DifferingValue[];
  /** The other files of the report, by name. */
  readonly others: {
    readonly same: readonly string[];
    readonly different: readonly string[];
    /** Not beside the summary. */
    readonly absent: readonly string[];
  };
}

/** More than this many lines help nobody. */
const MOST_VALUES = 12;
const MOST_FILES = 6;
const WIDTH = 34;

/** Says where a study was made otherwise than here; nothing where it was not. */
export function makerText(then: Maker, now: Maker): string {
  const [before, here] = [toolOf(then), toolOf(now)];
  const [there, machine] = [platformText(then.platform), platformText(now.platform)];
  return [
    ...(before === here ? [] : [`It was made by ${before}, and this is ${here}: numbers may differ for that.`]),
    ...(there === machine ? [] : [`It was made on ${there}, and this is ${machine}: no number may differ for that.`]),
  ]
    .map(plainText)
    .join('\n');
}

function toolOf({ toolVersion, commit }: Maker): string {
  return toolText({ name: 'swap-or-hop', version: toolVersion, commit });
}

export function verificationText({ file, isSame, values, others }: Verification): string {
  const name = plainText(file);
  const more = values.length > MOST_VALUES ? '; the first of them' : '';
  const parts = [
    isSame
      ? `${name}: the same to the byte`
      : values.length === 0
        ? `${name} differs, but in how it is written only: all values are the same`
        : `${name} differs in ${counted(values.length, 'value')}${more}:\n${valuesTable(values)}`,
    filesText('of its report: the same to the byte', others.same),
    filesText('of its report: not the same', others.different),
    filesText('of its report: not beside it, so not compared', others.absent),
  ];
  return parts.filter((part) => part !== '').join('\n');
}

function valuesTable(values: readonly DifferingValue[]): string {
  return textTable({
    columns: [{ label: 'Place' }, { label: 'It says' }, { label: 'Made again' }],
    rows: values.slice(0, MOST_VALUES).map(({ path, before, now }) => [path, valueText(before), valueText(now)]),
  });
}

function valueText(value: unknown): string {
  return value === undefined ? 'nothing' : shortened(JSON.stringify(value), WIDTH);
}

function filesText(what: string, files: readonly string[]): string {
  if (files.length === 0) return '';
  const named =
    files.length <= MOST_FILES ? files : [...files.slice(0, MOST_FILES - 1), `${files.length - MOST_FILES + 1} more`];
  return `${counted(files.length, 'other file')} ${what} (${listed(named)})`;
}
