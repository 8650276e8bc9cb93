import seedrandom from 'seedrandom';
import { exp, ln, pow } from '../../src/chance/elementary.js';
import { compileLife, type Life } from '../../src/chance/life.js';
import { normalQuantile } from '../../src/chance/normal.js';

/** What can end a tip of the invented laboratory: a life in one exposure, and how the log calls it. */
interface Danger {
  readonly cause: string;
  readonly words: readonly string[];
  readonly per: 'image' | 'distance' | 'approach';
  readonly life: Life;
  /** Exposure grows by (load / 20 nN) to this power. */
  readonly load?: number;
}

interface Kind {
  readonly kind: string;
  readonly prefix: string;
  readonly tips: number;
  /** Path of an image in mm, and loads in nN that are used in turn. */
  readonly path: number;
  readonly loads: readonly number[];
  /** Mean number of images after which a tip is taken off though sound. */
  readonly patience: number;
  /** Images from one look at the tip to the next. */
  readonly looks: number;
  readonly dangers: readonly Danger[];
}

/** The parameters with which the log was made, and which a fit is to find again. */
export const MADE_WITH: readonly Kind[] = [
  {
    kind: 'sharp',
    prefix: 'S',
    tips: 75,
    path: 0.512,
    loads: [2],
    patience: 45,
    looks: 1,
    dangers: [
      {
        cause: 'breakage',
        words: ['breakage', 'broken', 'Broken'],
        per: 'approach',
        life: { distribution: 'exponential', mean: 40 },
      },
      {
        cause: 'chipping',
        words: ['chipping', 'chipped'],
        per: 'image',
        life: { distribution: 'weibull', shape: 1.6, scale: 40 },
      },
      {
        cause: 'fouling',
        words: ['fouling', 'fouled', 'contaminated'],
        per: 'image',
        life: { distribution: 'lognormal', median: 60, geometricSd: 2.5 },
      },
    ],
  },
  {
    kind: 'coated',
    prefix: 'C',
    tips: 45,
    path: 1.024,
    loads: [10, 20, 40],
    patience: 30,
    looks: 1,
    dangers: [
      {
        cause: 'coating',
        words: ['coating', 'coating gone'],
        per: 'distance',
        life: { distribution: 'weibull', shape: 2, scale: 12 },
        load: 1,
      },
      {
        cause: 'breakage',
        words: ['breakage', 'broken'],
        per: 'approach',
        life: { distribution: 'exponential', mean: 120 },
      },
    ],
  },
  {
    kind: 'blunt',
    prefix: 'B',
    tips: 30,
    path: 0.256,
    loads: [10],
    patience: 60,
    looks: 3,
    dangers: [
      {
        cause: 'fouling',
        words: ['fouling', 'dirty'],
        per: 'image',
        life: { distribution: 'gamma', shape: 2.5, scale: 12 },
      },
      {
        cause: 'breakage',
        words: ['breakage', 'broken'],
        per: 'approach',
        life: { distribution: 'exponential', mean: 400 },
      },
    ],
  },
];

const HEAD =
  'Tip;Kind;Taken off;Images;Path [mm];Approaches;Load [nN];Last sound images;Last sound path [mm];Last sound approaches;Images before;Path before [mm];Approaches before;What ended it;Notes';

type Use = Readonly<Record<Danger['per'], number>>;

/** The log of 150 tips, as a spreadsheet of our own invention would hold it: semicolons, a byte order mark, and what people do. */
export function madeLog(): string {
  const random = seedrandom('a log of tips');
  const uniform = () => Math.max(random(), 1e-12);
  const rows = MADE_WITH.flatMap((kind, place) =>
    Array.from({ length: kind.tips }, (_, index) => rowOf(kind, place, index, uniform)),
  );
  return `\uFEFF${[HEAD, ...withMess(rows)].join('\n')}\n`;
}

function rowOf(kind: Kind, place: number, index: number, uniform: () => number): readonly string[] {
  const load = kind.loads[index % kind.loads.length];
  const ends = kind.dangers.map(({ life }) => compileLife(life).exposureAt(-ln(uniform())));
  const patience = 1 + Math.floor(-kind.patience * ln(uniform()));
  // Every fifth tip of a kind was in use before the log began, and only those that had come through are in it.
  const before = index % 5 === 4 ? 4 : 0;
  let images = 0;
  let approaches = 0;
  let cause: Danger | undefined;
  let sound: Use = { image: 0, distance: 0, approach: 0 };
  const use = (): Use => ({ image: images, distance: images * kind.path, approach: approaches });
  let entry = use();
  while (cause === undefined && images < patience + before) {
    if (images % kind.looks === 0) sound = use();
    if (images === before) entry = use();
    approaches += uniform() < 0.4 ? 1 : 0;
    if (images === 0 && approaches === 0) approaches = 1;
    images += 1;
    const now = use();
    const grown = ({ per, load: exponent = 0 }: Danger) => now[per] * pow(load / 20, exponent);
    cause = kind.dangers.find((danger, at) => grown(danger) >= ends[at]);
    if (cause !== undefined && images <= before) return rowOf(kind, place, index, uniform);
  }
  // A spoiled tip is noticed at the next look.
  while (cause !== undefined && images % kind.looks !== 0) images += 1;
  const end = use();
  const known = cause === undefined ? undefined : sound;
  const word = cause === undefined ? '' : cause.words[Math.floor(uniform() * cause.words.length)];
  return [
    `${kind.prefix}-${String(index + 1).padStart(3, '0')}`,
    kind.kind,
    dateOf(place * 40 + index),
    String(end.image),
    amount(end.distance),
    String(end.approach),
    String(load),
    known === undefined ? '' : String(known.image),
    known === undefined ? '' : amount(known.distance),
    known === undefined ? '' : String(known.approach),
    before === 0 ? '' : String(entry.image),
    before === 0 ? '' : amount(entry.distance),
    before === 0 ? '' : String(entry.approach),
    word,
    '',
  ];
}

function amount(millimetres: number): string {
  return String(Number(millimetres.toFixed(3)));
}

function dateOf(day: number): string {
  const month = Math.floor(day / 28);
  return `2031-${String((month % 12) + 1).padStart(2, '0')}-${String((day % 28) + 1).padStart(2, '0')}`;
}

/** What happens to tables that people keep. Columns by their place in the head. */
function withMess(rows: readonly (readonly string[])[]): readonly string[] {
  const [END, NOTE] = [13, 14];
  const changed = rows.map((row, index) => {
    const cells = [...row];
    if (index % 3 === 1) for (const place of [4, 8, 11]) cells[place] = cells[place].replace('.', ',');
    if (index % 17 === 8) cells[5] = '';
    if (index === 6 || index === 40) [cells[END], cells[NOTE]] = ['suspicion', 'image looked odd, "to be sure"'];
    if (index === 95) [cells[END], cells[NOTE]] = ['coating?', 'current was low; not checked'];
    if (index === 20) [cells[3], cells[4], cells[5], cells[NOTE]] = ['', '', '', 'fell on the floor; never used'];
    if (index === 60) [cells[END], cells[NOTE]] = ['see book', ''];
    if (index === 110) cells[1] = 'Coated';
    return cells;
  });
  const twice = changed[33].with(NOTE, 'entered again by mistake');
  return [...changed.slice(0, 50), twice, ...changed.slice(50)].map((cells) => cells.map(quoted).join(';'));
}

function quoted(text: string): string {
  return /[;"\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** What the radii were made with: wear in nm³/(nN mm), radius in nm, both as median and geometric standard deviation over tips. */
export const RADII_MADE_WITH = {
  wear: 60,
  wearGeometricSd: 1.5,
  radius: 8,
  radiusGeometricSd: 1.25,
  halfAngle: 20,
} as const;

/** The second table: radii of sharp tips, read on a reference structure after some path, each with its error. */
export function madeRadii(): string {
  const random = seedrandom('a table of radii');
  const normal = () => normalQuantile(Math.max(random(), 1e-12));
  const { wear, wearGeometricSd, radius, radiusGeometricSd } = RADII_MADE_WITH;
  // c(θ) = π (1 - sin θ)² / (3 sin θ) at 20 degrees
  const sine = 0.3420201433256687;
  const form = (Math.PI * (1 - sine) * (1 - sine)) / (3 * sine);
  const rows = Array.from({ length: 14 }, (_, tip) => {
    const k = wear * exp(ln(wearGeometricSd) * normal());
    const start = radius * exp(ln(radiusGeometricSd) * normal());
    return [0, 5, 12, 25].slice(0, tip % 4 === 3 ? 3 : 4).map((path) => {
      const now = pow(start * start * start + (k * 2 * path) / form, 1 / 3);
      const error = 0.05 * now;
      return [
        `S-${String(tip + 1).padStart(3, '0')}`,
        path,
        2,
        (now + error * normal()).toFixed(2),
        error.toFixed(2),
      ].join(',');
    });
  });
  return `${['tip,path [mm],load [nN],radius [nm],error [nm]', ...rows.flat()].join('\n')}\n`;
}
