import type { Preview } from '../analysis/preview.js';
import { durationText, numberText } from '../wording/numbers.js';
import { hoursRead, imagesText } from '../wording/phrases.js';
import { leadTimeSentences } from './lead-time.js';
import { type Table, textTable } from './table.js';
import { plainText } from './text.js';

function passes({ plan }: Preview): Table {
  return {
    columns: [
      { label: 'pass' },
      { label: 'tip' },
      { label: 'images', numeric: true },
      { label: 'one scan', numeric: true },
      { label: 'one path', numeric: true },
    ],
    rows: plan.passes.map((pass) => [
      pass.name,
      pass.tip,
      String(pass.images),
      durationText(pass.scanTime),
      `${numberText(pass.path)} mm`,
    ]),
  };
}

function strategies(preview: Preview): Table {
  return {
    columns: [
      { label: 'strategy' },
      { label: 'workflow' },
      { label: 'scanning', numeric: true },
      { label: 'sliding path', numeric: true },
      { label: 'least time in all', numeric: true },
    ],
    rows: preview.strategies.map((strategy) => [
      strategy.name,
      strategy.workflow,
      durationText(strategy.scanTime),
      `${numberText(strategy.path)} mm`,
      durationText(strategy.leastTime),
    ]),
  };
}

function assumed(preview: Preview, isDefault: boolean): Table {
  return {
    columns: [{ label: 'value' }, { label: 'is' }, { label: 'may be' }],
    rows: preview.assumed
      .filter((value) => value.isDefault === isDefault)
      .map(({ path, value, range }) => [path, value, range === null ? '' : `${range.low} to ${range.high}`]),
  };
}

function hours({ hours: { bookings, operators, granted, unattended } }: Preview): string {
  const lines = [
    `Booked       ${hoursRead(bookings)}`,
    `Operators    ${hoursRead(operators)}`,
    `Granted      ${granted ?? 'as long as it takes'}`,
    `Unattended   ${unattended}`,
  ];
  return lines.map(plainText).join('\n');
}

/** A preview as text for the terminal. */
export function previewText(preview: Preview): string {
  const { plan } = preview;
  const [own, defaults] = [assumed(preview, false), assumed(preview, true)];
  const parts = [
    plainText(preview.title),
    `${imagesText(plan.images, plan.regions, plan.samples)}, ${plan.order}\n\n${textTable(passes(preview))}`,
    hours(preview),
    textTable(strategies(preview)),
    ...leadTimeSentences(preview.strategies).map(plainText),
    'Least time: every image once, nothing fails, nothing waits, each step at its shortest; of `usual` and `p90` times that is nothing.',
    ...(own.rows.length === 0 ? [] : [`You give these without a source, so they are assumed:\n\n${textTable(own)}`]),
    ...(defaults.rows.length === 0
      ? []
      : [`These are left to their defaults, which are assumed:\n\n${textTable(defaults)}`]),
  ];
  return `${parts.join('\n\n')}\n`;
}
