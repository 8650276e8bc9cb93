import { z } from 'zod';
import { boundsOf, type Figure } from './counts.js';

export const PART_NAMES = ['compare', 'breakeven', 'budget', 'stopping'] as const;
export type PartName = (typeof PART_NAMES)[number];

const count = z.int().nonnegative();
const part = z.strictObject({
  seed: z.string(),
  date: z.iso.date(),
  figures: z
    .array(
      z.strictObject({
        what: z.string(),
        truth: z.string(),
        value: z.number(),
        nominal: z.number(),
        held: z.enum(['both sides', 'not below', 'shown']),
        repeats: count,
        holding: count,
        above: count,
        below: count,
      }),
    )
    .readonly(),
  notes: z.array(z.string()).readonly(),
});
export type Part = Readonly<z.output<typeof part>>;

const record = z.partialRecord(z.enum(PART_NAMES), part);
export type CalibrationRecord = z.output<typeof record>;

/** Reads record.json, part by part as they were last run. */
export function readRecord(text: string): CalibrationRecord {
  return record.parse(JSON.parse(text));
}

const TITLES: Readonly<Record<PartName, string>> = {
  compare: 'Intervals of `compare`',
  breakeven: 'Intervals of a break-even',
  budget: 'What `budget` asks for',
  stopping: 'What stopping by itself does',
};
const ABOUT: Readonly<Record<PartName, string>> = {
  compare:
    'Means and paired differences by Student, unadjusted; differences “as shown” are widened for three comparisons. Quantiles and chances have the confidence that their own distribution gives them, worked out exactly. 100 replications a repeat.',
  breakeven: 'As the study finds them, with its own looks; at least 200 replications of each setting.',
  budget:
    'Distribution-free, from the lower end to what is asked for; wide by design, so held on the lower side only. Times are continuous and have the confidence that the binomial gives; tips are whole and more than enough. 100 replications a repeat.',
  stopping:
    'The same plan, stopped at the first look (200, 400, 800 … replications) at which the difference is known to ±1 %, and at a fixed number. The former is shown and held to nothing.',
};

const percent = (share: number) => `${(100 * share).toFixed(2)} %`;

function boundText(figure: Figure): string {
  const { low, high } = boundsOf(figure);
  if (figure.held === 'shown') return '–';
  return figure.held === 'not below' ? `at least ${percent(low)}` : `${percent(low)} to ${percent(high)}`;
}

function rowOf(figure: Figure): string {
  const { what, value, truth, nominal, repeats, holding, above, below } = figure;
  return `| ${what} | ${Number(value.toPrecision(6))} (${truth}) | ${percent(nominal)} | ${percent(holding / repeats)} | ${above} | ${below} | ${repeats} | ${boundText(figure)} |`;
}

/** RECORD.md. */
export function markdownOf(parts: CalibrationRecord): string {
  const sections = PART_NAMES.flatMap((name) => {
    const found = parts[name];
    if (found === undefined) return [];
    return [
      `## ${TITLES[name]}`,
      `Seed \`${found.seed}\`, ${found.date}. ${ABOUT[name]}`,
      ...found.notes,
      [
        '| interval of | true value (distribution) | says | held it | above it | below it | repeats | bounds |',
        '| --- | --- | --: | --: | --: | --: | --: | --- |',
        ...found.figures.map(rowOf),
      ].join('\n'),
    ];
  });
  return [
    '# How often intervals hold the truth',
    'Written by `npm run calibrate -- SEED DATE`. Every true value is a closed form, none a long run of the simulator. An interval is counted as lying above or below the true value where it lies there as a whole. Bounds are those of `boundsOf` in `counts.ts`: in 10 000 repeats 1.1 points from what the interval says, which is five standard errors at 95 % and more where more is said. Misses are not the same on both sides: where a distribution is skewed one side may have nearly 4 % in place of 2.5 %, and a verdict rests on one side. A break-even that is not found, or found more than once, counts as one above. What hangs on one number alone, as takes, tips and time of the first case do, has one and the same figure.',
    ...sections,
  ].join('\n\n');
}
