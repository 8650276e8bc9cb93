import { type Document, isAlias, isMap, isScalar, type YAMLSeq } from 'yaml';
import { suggestion } from '../../scenario/nearest.js';
import { shellOption } from '../../scenario/shell-line.js';
import {
  documentOf,
  edited,
  listAt,
  mapAt,
  plainEntries,
  Refusal,
  setEntries,
  setSource,
  setValue,
  type Written,
} from './edit.js';
import { bluntingData, bluntingSource, hazardData, hazardSources } from './hazard-data.js';
import type { CauseFit, FitSummary } from './results.js';

/**
 * Writes what was fitted into a scenario's text, comments kept: each hazard takes the place of that of the same cause, or is added, and
 * `sources` say where it comes from. The text is not checked as a scenario here.
 */
export function writeInto(text: string, summary: FitSummary): Written {
  return edited(text, (document) => {
    const kinds = [...summary.kinds, ...summary.blunting].map(({ kind }) => kind);
    const messages = [...new Set(kinds.flatMap((kind) => missingIn(document, kind)))];
    if (messages.length > 0) throw new Refusal(messages);
    for (const fit of summary.kinds.flatMap(({ causes }) => causes)) writeHazard(document, summary, fit);
    writeBlunting(document, summary);
  });
}

/** What is wrong where a scenario's text has no such kind of tips; nothing where it has. */
export function missingKind(text: string, kind: string): readonly string[] {
  return missingIn(documentOf(text), kind);
}

function missingIn(document: Document, kind: string): readonly string[] {
  if (isMap(document.getIn(['tips', kind], true))) return [];
  const tips = document.get('tips', true);
  const kinds = isMap(tips) ? tips.items.flatMap(({ key }) => (isScalar(key) ? [String(key.value)] : [])) : [];
  const one = kinds.length === 0 ? 'KIND' : kinds[0];
  return [
    `tips of kind \`${kind}\` are in the log, but the scenario has no such kind${suggestion(kind, kinds)}; say which it is with ${shellOption('tip', `${kind}=${one}`)}, or leave them out with ${shellOption('tip', `${kind}=`)}`,
  ];
}

function writeHazard(document: Document, summary: FitSummary, fit: CauseFit): void {
  if (fit.hazard === null) return;
  const holder = ['tips', fit.kind, 'hazards'];
  const hazards = listAt(document, holder);
  const index = placeOf(document, hazards, fit);
  const entries = hazardData(fit.hazard);
  const name = nameIn(hazards, fit, index);
  if (index === hazards.items.length) hazards.add(document.createNode({ cause: fit.cause }));
  const hazard = hazards.get(index, true);
  if (!isMap(hazard)) throw new Refusal([`${holder.join('.')}.${name} is written as a reference; write it out`]);
  setValue(document, hazard, 'per', entries.per);
  setValue(document, hazard, 'life', entries.life);
  if (Object.keys(entries.acceleration).length > 0) {
    const before = hazard.get('acceleration', true);
    const kept = isMap(before) ? plainEntries(before) : {};
    setValue(document, hazard, 'acceleration', { ...kept, ...entries.acceleration });
  }
  setValue(document, hazard, 'uncertainty', entries.uncertainty);
  const path = [...holder, name].join('.');
  for (const [part, source] of hazardSources(path, summary, fit)) setSource(document, part, source);
}

/** The place of the hazard that is replaced; one past the end where there is none of the cause. */
function placeOf(document: Document, hazards: YAMLSeq, { kind, cause, per }: CauseFit): number {
  const same = hazards.items.flatMap((item, index) => {
    const hazard = isAlias(item) ? item.resolve(document) : item;
    return isMap(hazard) && hazard.get('cause') === cause ? [index] : [];
  });
  if (same.length === 0) return hazards.items.length;
  const counted = same.filter((index) => hazards.getIn([index, 'per']) === per);
  const sure = [counted, same].find(({ length }) => length === 1);
  if (sure !== undefined) return sure[0];
  throw new Refusal([
    `tips.${kind}.hazards has ${same.length} hazards of ${cause}; which is meant? Leave one of them, or one per ${per}`,
  ]);
}

/** How a path names it: by its cause, or its number where several have that. */
function nameIn(hazards: YAMLSeq, { cause }: CauseFit, index: number): string | number {
  const others = hazards.items.filter((item, at) => at !== index && isMap(item) && item.get('cause') === cause);
  return others.length === 0 ? cause : index;
}

function writeBlunting(document: Document, summary: FitSummary): void {
  for (const blunting of summary.blunting) {
    const { wear, radius } = bluntingData(blunting);
    setEntries(document, mapAt(document, ['tips', blunting.kind, 'radius']), radius);
    setEntries(document, mapAt(document, ['tips', blunting.kind, 'blunting', 'wear']), wear, ['archardK', 'hardness']);
    const source = bluntingSource(blunting);
    setSource(document, `tips.${blunting.kind}.blunting.wear`, source);
    setSource(document, `tips.${blunting.kind}.radius`, source);
  }
}
