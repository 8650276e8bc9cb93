import { declaredOf } from '../../probe/causes.js';
import { entryIn } from '../schema-walk.js';
import { suggestion } from '../nearest.js';
import { samplesAtOne, specimenSupply, type Supply } from '../samples.js';
import { show } from '../show.js';
import { type Check, error, type Finding, ofEachPass, warning } from './finding.js';

/** A pass needs a tip kind that is not defined. */
export const undefinedKinds: Check = (settings) =>
  ofEachPass(settings, ({ tip }, index) => {
    const names = Object.keys(settings.tips);
    return names.includes(tip)
      ? []
      : [error(`unknown tip kind ${show(tip)}${suggestion(tip, names)}`, ['plan', 'passes', index, 'tip'])];
  });

/** Sites, dead shares or stock are given for a tip kind that is not defined. */
export const strayKinds: Check = ({ workflows, stock, tips }) => {
  const names = Object.keys(tips);
  const stray = (kinds: object, ...path: readonly string[]): readonly Finding[] =>
    Object.keys(kinds)
      .filter((kind) => !names.includes(kind))
      .map((kind) => ({
        ...error(`unknown tip kind ${show(kind)}${suggestion(kind, names)}`, [...path, kind]),
        at: 'key' as const,
      }));
  const { sites, dead } = workflows.hop.chip;
  return [
    ...stray(sites, 'workflows', 'hop', 'chip', 'sites'),
    ...stray(dead, 'workflows', 'hop', 'chip', 'dead'),
    ...stray(stock.tips, 'stock', 'tips'),
  ];
};

/** A hopping strategy needs a tip kind that the chip does not carry. */
export const kindsWithoutSites: Check = (settings, workflow) => {
  if (workflow !== 'hop') return [];
  const { tips, workflows } = settings;
  const { sites } = workflows.hop.chip;
  return ofEachPass(settings, ({ tip }) =>
    !Object.hasOwn(tips, tip) || Object.hasOwn(sites, tip)
      ? []
      : [
          error(
            `the chip has no sites of the tip kind ${show(tip)}; \`workflows.hop.chip.sites.${tip}\` is wanted, or a strategy that does not hop`,
            ['workflows', 'hop', 'chip', 'sites'],
          ),
        ],
  );
};

/** Nothing is at hand to begin with. */
export const nothingToBeginWith: Check = (settings, workflow) => {
  const { stock } = settings;
  if (workflow === 'swap') {
    return ofEachPass(settings, ({ tip }) => {
      const message = `no tip of the kind ${show(tip)} is at hand, though the plan needs one; at least 1 is wanted`;
      return entryIn(stock.tips, tip)?.atHand === 0 ? [error(message, ['stock', 'tips', tip])] : [];
    });
  }
  const specimens: Supply = specimenSupply(settings);
  const samples = samplesAtOne(settings);
  return [
    ...(stock.chips?.atHand === 0
      ? [error('no chip of tips is at hand; array-hop needs at least 1', ['stock', 'chips'])]
      : []),
    ...(specimens.atHand < (specimens.restock === undefined ? samples : 1)
      ? [
          error(
            `${specimens.atHand} at hand; array-hop needs at least ${samples}, the first of every sample, or a restock delay`,
            ['stock', 'specimens'],
            ['plan', 'samples'],
          ),
        ]
      : []),
  ];
};

/** An electrical pass whose tips never lose their coating is nearly always a hazard forgotten. */
export const coatingsThatLastForEver: Check = (settings) =>
  ofEachPass(settings, ({ signal }, index, { called, tip, kind }) => {
    if (
      signal !== 'electrical' ||
      kind === undefined ||
      kind.hazards.some(({ cause }) => declaredOf(cause).effect.uncoats)
    )
      return [];
    return [
      warning(
        `the pass ${called} needs the coating of ${show(tip)}, which no hazard of the cause \`coating\` ever takes away`,
        ['plan', 'passes', index, 'signal'],
        ['tips', tip],
      ),
    ];
  });
