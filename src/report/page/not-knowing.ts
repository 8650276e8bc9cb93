import { COMPARED } from '../../study/compared-measures.js';
import { measureName } from '../../study/words.js';
import { type Known, spanText } from '../charts/not-knowing.js';
import { estimateLine, numberText, SHARE } from '../format.js';
import { differenceScale } from '../measure-scale.js';
import { htmlTable, type Table } from '../table.js';
import { html, listed } from '../text.js';

/** A share to whole per cents, as a share of a span is not known better. */
function wholeShare(share: number): string {
  return numberText(Math.round(100 * share) / 100, SHARE);
}

/** What an input alone leaves open, as a share of all that is; null where nothing was seen of that. */
function partText(share: number | null): string {
  if (share === null) return 'none seen';
  return share >= 0.995 ? 'all' : wholeShare(share);
}

/** What each difference comes to within what is not known. */
export function differencesTable(known: Known): Table {
  return {
    columns: [
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'Difference, as simulated', numeric: true },
      { label: 'Within what is not known', numeric: true },
      { label: 'Other sign in', numeric: true },
      { label: 'So' },
    ],
    rows: known.notKnowing.differences.map(({ strategy, measure, atValues, notKnowing, otherSign, turns }) => {
      const scale = differenceScale(measure, known);
      const isTold = atValues.low > 0 || atValues.high < 0;
      return [
        strategy,
        measureName(measure),
        estimateLine(atValues, scale, true),
        spanText(notKnowing, scale, true),
        `${wholeShare(otherSign)} of draws`,
        turns ? 'open' : isTold ? 'keeps its sign' : 'not told apart anyway',
      ];
    }),
  };
}

/** Which input to learn more about first. */
export function logNextTable(known: Known): Table {
  const isAlone = known.differences.length === 0;
  return {
    columns: [
      { label: 'Not known' },
      { label: isAlone ? 'Mean of' : 'Difference of' },
      ...COMPARED.map((measure) => ({ label: measureName(measure), numeric: true })),
      ...(isAlone ? [] : [{ label: 'Alone it could turn' }]),
    ],
    rows: known.notKnowing.logNext.flatMap(({ description, effects }) =>
      [...new Set(effects.map(({ strategy }) => strategy))].map((strategy) => {
        const own = effects.filter((effect) => effect.strategy === strategy);
        const turning = own.filter(({ couldTurn }) => couldTurn).map(({ measure }) => measureName(measure));
        const shares = COMPARED.map((measure) => own.find((effect) => effect.measure === measure)?.share ?? null);
        return [
          description,
          strategy,
          ...shares.map((share) => partText(share)),
          ...(isAlone ? [] : [turning.length === 0 ? 'nothing' : listed(turning)]),
        ];
      }),
    ),
  };
}

/** What was drawn, and from what. */
export function inputsTable({ notKnowing }: Known): Table {
  return {
    columns: [
      { label: 'Not known' },
      { label: 'Value' },
      { label: 'In the scenario', numeric: true },
      { label: 'How far known' },
      { label: 'From' },
      { label: 'Set by itself in' },
    ],
    rows: notKnowing.inputs.flatMap(({ description, from, parameters, keptBy }) =>
      parameters.map(({ path, value, within }) => [
        description,
        path,
        value,
        within,
        from === 'fit' ? 'a fit' : 'a range given by hand',
        keptBy.length === 0 ? 'no strategy' : listed(keptBy),
      ]),
    ),
  };
}

/** How the draws were made, in plain text; the text for a proposal has it too. */
export function drawnText({ notKnowing, confidence }: Known): string {
  const { draws, replicationsPerDraw, inputs } = notKnowing;
  const clipped = inputs
    .filter((input) => input.clipped > 0)
    .map((input) => `${input.clipped} of “${input.description}”`);
  const kept = inputs.filter((input) => input.keptBy.length > 0).map((input) => `“${input.description}”`);
  return [
    `What the scenario says is uncertain was drawn ${numberText(draws)} times, inputs independent of each other, the same for all strategies, and each draw was run in ${numberText(replicationsPerDraw)} replications, on the luck that the scenario’s own values meet too; a range given by hand counts as the middle 95 % of a normal distribution about its own middle, of the logarithm where the value is positive.`,
    `Spans hold the middle ${numberText(confidence.level, SHARE)}; the noise of so few replications is taken out of those of means (analysis of variance).`,
    ...(kept.length === 0
      ? []
      : [`A strategy that sets a value of ${listed(kept)} itself keeps that value in every draw.`]),
    clipped.length === 0
      ? 'No draw had to be brought back to what the schema allows.'
      : `Draws brought back to what the schema allows: ${listed(clipped)}.`,
  ].join(' ');
}

export const LOG_NEXT_NOTE =
  'Each input drawn alone, the others as the scenario has them: the width of the span that it leaves, as a share of that of all together. Shares need not add up to 100 %, and chance may make one larger than it is; none can be more than all. Log first what stands first.';

/** Luck and not-knowing apart: `figures` are HTML. */
export function notKnowingSection(known: Known, figures: readonly string[]): string {
  const differences =
    known.notKnowing.differences.length === 0
      ? ''
      : `${htmlTable(differencesTable(known), 'Differences within what is not known')}\n`;
  return `<section aria-labelledby="not-knowing">
<h2 id="not-knowing">What is luck, and what is not knowing</h2>
<p>${html(drawnText(known))}</p>
${differences}${figures.join('\n')}
<h3>What to log next</h3>
<p>${html(LOG_NEXT_NOTE)}</p>
${htmlTable(logNextTable(known), 'Share of what is left open, by input alone')}
<h3>What was drawn</h3>
${htmlTable(inputsTable(known), 'Uncertain values of the scenario')}
</section>`;
}
