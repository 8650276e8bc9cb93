import { roundedUp } from '../wording/numbers.js';

/** What a person is asked who has no scenario yet, in the order in which a measurement is thought of. */

/** Where the plan is measured, by which usual times differ. */
export const ENVIRONMENTS = ['air', 'liquid', 'vacuum'] as const;
export type Environment = (typeof ENVIRONMENTS)[number];

interface Asked {
  readonly name: string;
  readonly asks: string;
  /**
   * Where the answer stands in the scenario, by which what is wrong with it is found; `IMAGE` and `TIP` for the name of a kind,
   * `WORKFLOW` for that of each workflow.
   */
  readonly path: string;
  /** Asked of each kind. What names a tip but is not asked of each holds for all kinds of tips. */
  readonly of?: Kinds;
  /** Asked only where there is more than one kind of these. */
  readonly ifSeveral?: Kinds;
  /** What is usual, everywhere or by environment; the same for every kind, or kind by kind. */
  readonly usual: ByEnvironment<string | readonly string[]>;
  /** Where that comes from. */
  readonly from: ByEnvironment<string>;
  /** Answered in words that take the whole width. */
  readonly isText?: true;
  /** By which factors it may lie off where nothing is known; not given where something is chosen, not known. */
  readonly within?: readonly [number, number];
  /** The words that it may be; `tip` for the names of the kinds of tips. */
  readonly choices?: readonly string[] | 'tip';
}

type ByEnvironment<Each> = Each | Readonly<Record<Environment, Each>>;

/** Of what there may be several kinds. */
export type Kinds = 'image' | 'tip';

const COUNTS = ['1', '2', '3'];

const PRACTICE = 'common practice, no source';
const GUESS = 'assumed, no source';
const EXAMPLE = 'an example';

const SIZES = ['1 um', '500 nm', '250 nm'];

const TIMES = { from: PRACTICE, within: [0.4, 2.5] } as const;
const PRICES = { from: GUESS, within: [0.5, 2] } as const;

const GROUPS = [
  [
    'What is measured, and where',
    [
      {
        name: 'title',
        asks: 'What is the measurement called?',
        path: 'title',
        usual: 'My measurement plan',
        from: EXAMPLE,
        isText: true,
      },
      {
        // Asked before all that is usual elsewhere than there.
        ...{ name: 'environment', asks: 'In air, in liquid or in vacuum?', path: '', usual: 'air', from: EXAMPLE },
        choices: ENVIRONMENTS,
      },
      { name: 'samples', asks: 'How many samples?', path: 'plan.samples', usual: '3', from: EXAMPLE },
      { name: 'regions', asks: 'How many regions on each of them?', path: 'plan.regions', usual: '6', from: EXAMPLE },
      {
        ...{ name: 'imageKinds', asks: 'How many kinds of image are taken of each region?', path: '' },
        ...{ usual: '1', choices: COUNTS, from: EXAMPLE },
      },
      {
        ...{ name: 'image', of: 'image', ifSeveral: 'image', asks: 'What is this kind called?', from: EXAMPLE },
        ...{ path: 'plan.passes.IMAGE.name', usual: ['image', 'detail', 'third kind'], isText: true },
      },
      {
        ...{ name: 'size', of: 'image', asks: 'How large is an image?', path: 'plan.passes.IMAGE.size', from: EXAMPLE },
        usual: { air: SIZES, liquid: SIZES, vacuum: ['300 nm', '150 nm', '100 nm'] },
      },
      {
        ...{ name: 'lines', of: 'image', asks: 'How many lines has it?', path: 'plan.passes.IMAGE.lines' },
        ...{ usual: '256', from: PRACTICE },
      },
      {
        ...{ name: 'lineRate', of: 'image', asks: 'How many lines are scanned a second?', from: PRACTICE },
        ...{ path: 'plan.passes.IMAGE.lineRate', usual: '1 Hz' },
      },
      {
        ...{ name: 'resolution', of: 'image', asks: 'Which distance must be resolved in it?' },
        ...{ path: 'plan.passes.IMAGE.neededResolution', usual: { air: '10 nm', liquid: '10 nm', vacuum: '8 nm' } },
        from: 'an example, no less than two line spacings',
      },
    ],
  ],
  [
    'With which tips',
    [
      {
        ...{ name: 'tipKinds', ifSeveral: 'image', asks: 'How many kinds of tip do the images take?', path: '' },
        ...{ usual: '1', choices: COUNTS, from: EXAMPLE },
      },
      {
        ...{ name: 'tip', of: 'tip', asks: 'What do you call the tips?', path: 'tips.TIP', from: EXAMPLE },
        ...{ usual: ['sharp', 'sturdy', 'third kind'], isText: true },
      },
      {
        ...{
          name: 'radius',
          of: 'tip',
          asks: 'How sharp is a new one (apex radius)?',
          path: 'tips.TIP.radius.nominal',
        },
        ...{ usual: '8 nm', from: GUESS, within: [0.6, 2] },
      },
      {
        ...{ name: 'price', of: 'tip', asks: 'What does one cost?', path: 'tips.TIP.price', ...PRICES },
        usual: { air: '25 EUR', liquid: '30 EUR', vacuum: '80 EUR' },
      },
      {
        ...{ name: 'tipOf', of: 'image', ifSeveral: 'tip', asks: 'With which tips are these images taken?' },
        ...{ path: 'plan.passes.IMAGE.tip', usual: '', choices: 'tip', from: EXAMPLE },
      },
    ],
  ],
  [
    'How tips fail',
    [
      {
        ...{ name: 'breakage', asks: 'In which share of approaches does the tip break?', from: GUESS },
        ...{ path: 'tips.TIP.hazards.breakage.life.perUnit', usual: '0.01', within: [0.1, 10] },
      },
      {
        ...{ name: 'contamination', asks: 'After how many images on average is a tip contaminated?', from: GUESS },
        ...{ path: 'tips.TIP.hazards.fouling.life.mean', within: [0.2, 5] },
        usual: { air: '60 images', liquid: '30 images', vacuum: '150 images' },
      },
      {
        ...{ name: 'chipping', asks: 'After how many images on average does a piece of the apex break off?' },
        ...{ path: 'tips.TIP.hazards.chipping.life.mean', from: GUESS, within: [0.2, 5] },
        usual: { air: '80 images', liquid: '80 images', vacuum: '40 images' },
      },
    ],
  ],
  [
    'How long a swap takes here',
    [
      {
        ...{ name: 'warmUp', asks: 'How long does the instrument warm up at the start of a session?', ...TIMES },
        path: 'workflows.WORKFLOW.steps.warmUp.usual',
        usual: { air: '20 min', liquid: '20 min', vacuum: '60 min' },
        from: { air: PRACTICE, liquid: PRACTICE, vacuum: `${GUESS}; under power overnight` },
        within: [0.25, 3],
      },
      {
        ...{ name: 'exchange', asks: 'How long does it take to exchange the probe?', ...TIMES },
        path: 'workflows.swap.steps.exchange.usual',
        usual: { air: '4 min', liquid: '8 min', vacuum: '100 min' },
      },
      {
        ...{ name: 'relocate', asks: 'How long does it take to find the region again?', ...TIMES },
        path: 'workflows.swap.steps.relocate.usual',
        usual: { air: '4 min', liquid: '6 min', vacuum: '20 min' },
      },
      {
        ...{ name: 'settle', asks: 'How long do you wait until drift has settled?', ...TIMES },
        path: 'workflows.swap.steps.settle.usual',
        usual: { air: '5 min', liquid: '15 min', vacuum: '60 min' },
      },
    ],
  ],
  [
    'What array-hop would take',
    [
      {
        ...{ name: 'prepare', asks: 'How long would it take to put a sample on the lever?', ...TIMES, from: GUESS },
        path: 'workflows.hop.steps.prepare.usual',
        usual: { air: '45 min', liquid: '60 min', vacuum: '120 min' },
      },
      {
        ...{ name: 'hopSettle', asks: 'How long would you wait after a hop until creep has settled?' },
        path: 'workflows.hop.steps.settle.usual',
        ...{ usual: '', from: `${GUESS}; as after a swap, may be far less`, within: [0.1, 2.5] },
      },
      {
        ...{ name: 'sites', of: 'tip', asks: 'How many tips has a chip?', path: 'workflows.hop.chip.sites.TIP' },
        ...{ usual: '50', from: EXAMPLE },
      },
      {
        ...{ name: 'dead', asks: 'Which share of them cannot be used?', path: 'workflows.hop.chip.dead.TIP' },
        ...{ usual: '0.2', from: GUESS, within: [0.25, 2] },
      },
      { name: 'chip', asks: 'What does a chip cost?', path: 'workflows.hop.chip.price', usual: '400 EUR', ...PRICES },
    ],
  ],
  [
    'Bookings and prices',
    [
      {
        ...{ name: 'hours', asks: 'When is the instrument booked?', path: 'bookings.hours' },
        ...{ usual: 'Mo-Fr 09:00-17:00', from: EXAMPLE, isText: true },
      },
      {
        ...{
          name: 'allocation',
          asks: 'How much of that is granted, in sessions or hours?',
          path: 'bookings.allocation',
        },
        ...{ usual: { air: '1 session', liquid: '1 session', vacuum: '3 sessions' }, from: EXAMPLE },
      },
      {
        ...{ name: 'instrument', asks: 'What does an hour of the instrument cost?', path: 'costs.instrumentHour' },
        ...{ usual: '40 EUR', ...PRICES },
      },
      {
        ...{ name: 'operator', asks: 'What does an hour of an operator cost?', path: 'costs.operatorHour' },
        ...{ usual: '40 EUR', ...PRICES },
      },
    ],
  ],
] as const satisfies readonly (readonly [string, readonly Asked[]])[];

export type QuestionName = (typeof GROUPS)[number][1][number]['name'];

/** A question by its name; of a further kind, with its number. */
export type Key = string;

/** A question as it is asked. */
export interface Question extends Asked {
  readonly name: QuestionName;
  /** Where what is usual comes from; and of which environment that is, where it differs. */
  readonly from: string;
  readonly key: Key;
  /** Of which kind it is asked, from 0. */
  readonly kind: number;
  /** The words that it may be. */
  readonly words: readonly string[] | null;
}

type Declared = Asked & { readonly name: QuestionName };

const DECLARED: readonly (readonly [string, readonly Declared[]])[] = GROUPS;

/** What somebody has answered so far; what is in neither is as usual. */
export interface Answers {
  /** As a person types it. */
  readonly own: ReadonlyMap<Key, string>;
  /** Questions of which nothing is known. */
  readonly unknown: ReadonlySet<Key>;
  /** Questions whose value was measured, be it typed or as usual. */
  readonly measured: ReadonlySet<Key>;
}

export const NO_ANSWERS: Answers = { own: new Map(), unknown: new Set(), measured: new Set() };

/** How well an answer is known: as usual or estimated, measured, or not at all. */
export const KNOWN = ['usual', 'measured', 'unknown'] as const;
export type Known = (typeof KNOWN)[number];

export function knownOf(key: Key, { measured, unknown }: Answers): Known {
  return measured.has(key) ? 'measured' : unknown.has(key) ? 'unknown' : 'usual';
}

/** With a question's own answer; null for what is usual. */
export function withOwn(answers: Answers, key: Key, text: string | null): Answers {
  const own = new Map([...answers.own].filter(([each]) => each !== key));
  if (text !== null) own.set(key, text);
  return { ...answers, own };
}

export function withKnown({ own, ...sets }: Answers, key: Key, known: Known): Answers {
  const part = (name: 'measured' | 'unknown') =>
    new Set([...[...sets[name]].filter((each) => each !== key), ...(name === known ? [key] : [])]);
  return { own, measured: part('measured'), unknown: part('unknown') };
}

/** The questions in groups that are asked together: how many there are hangs on the kinds of images and tips answered so far. */
export function questionGroups(answers: Answers): readonly (readonly [string, readonly Question[]])[] {
  return DECLARED.map(([about, questions]) => [about, inTurn(questions).flatMap((each) => asked(each, answers))]);
}

/** Questions of one kind after the other stand together: all of the first kind, then all of the second. */
function inTurn(questions: readonly Declared[]): readonly (readonly Declared[])[] {
  const runs: Declared[][] = [];
  for (const question of questions) {
    const last = runs.at(-1);
    if (last !== undefined && question.of !== undefined && last[0].of === question.of) last.push(question);
    else runs.push([question]);
  }
  return runs;
}

function asked(run: readonly Declared[], answers: Answers): readonly Question[] {
  const { of } = run[0];
  const kinds = of === undefined ? 1 : kindsIn(of, answers);
  return Array.from({ length: kinds }, (_, kind) =>
    run
      .filter(({ ifSeveral }) => ifSeveral === undefined || kindsIn(ifSeveral, answers) > 1)
      .map((each) => questionOf(each.name, answers, kind)),
  ).flat();
}

export function questions(answers: Answers): readonly Question[] {
  return questionGroups(answers).flatMap(([, each]) => each);
}

/** A question of one kind, whether it is asked or not. */
export function questionOf(name: QuestionName, answers: Answers, kind = 0): Question {
  const declared = DECLARED.flatMap(([, all]) => all).find((each) => each.name === name);
  if (declared === undefined) throw new RangeError(`no question is called ${name}`);
  const { of, asks, choices } = declared;
  const isOne = of === undefined || kindsIn(of, answers) === 1;
  const isName = name === of;
  return {
    ...declared,
    key: kind === 0 ? name : `${name} ${kind + 1}`,
    kind,
    asks: isOne ? asks : isName ? `${ORDINALS[kind]}: ${asks}` : `“${nameOf(of, answers, kind)}”: ${asks}`,
    from: fromText(declared, answers),
    words: choices === 'tip' ? namesOf('tip', answers) : (choices ?? null),
  };
}

const ORDINALS = ['First kind', 'Second kind', 'Third kind'];

/** How many kinds there are. */
export function kindsIn(of: Kinds, answers: Answers): number {
  // Where there is one kind of image, there is one of tips.
  if (of === 'tip' && kindsIn('image', answers) === 1) return 1;
  return Number(answers.own.get(`${of}Kinds`) ?? 1);
}

function nameOf(of: Kinds, answers: Answers, kind: number): string {
  return answerTo(questionOf(of, { ...answers, own: new Map([...answers.own, [`${of}Kinds`, '1']]) }, kind), answers);
}

export function namesOf(of: Kinds, answers: Answers): readonly string[] {
  return Array.from({ length: kindsIn(of, answers) }, (_, kind) => nameOf(of, answers, kind));
}

/** What holds where it is measured. */
function here<Each extends string | readonly string[]>(each: ByEnvironment<Each>, answers: Answers): Each {
  return isByEnvironment(each) ? each[environmentOf(answers)] : each;
}

function environmentOf({ own }: Answers): Environment {
  return ENVIRONMENTS.find((each) => each === own.get('environment')) ?? 'air';
}

function isByEnvironment<Each extends string | readonly string[]>(
  each: ByEnvironment<Each>,
): each is Readonly<Record<Environment, Each>> {
  return typeof each === 'object' && 'air' in each;
}

function fromText({ usual, from }: Asked, answers: Answers): string {
  const text = here(from, answers);
  return isByEnvironment(usual) ? `${text} (in ${environmentOf(answers)})` : text;
}

/** What is usual where it is measured. Kinds do not follow one another: what was shown of one stays until it is answered. */
export function usualAnswer({ name, usual, kind, choices }: Question, answers: Answers): string {
  if (name === 'hopSettle') return answerTo(questionOf('settle', answers), answers);
  if (choices === 'tip') return nameOf('tip', answers, Math.min(kind, kindsIn('tip', answers) - 1));
  const found = here(usual, answers);
  if (typeof found !== 'string') return found[kind];
  return name === 'resolution' ? resolvable(found, answers, kind) : found;
}

/** What must be resolved at least, but no less than two lines of the image, rounded up. */
function resolvable(least: string, answers: Answers, kind: number): string {
  const [size, lines] = (['size', 'lines'] as const).map((name) => answerTo(questionOf(name, answers, kind), answers));
  const apart = (2 * inNanometres(size)) / Number(lines);
  if (!(apart > inNanometres(least)) || apart === Infinity) return least;
  const rounded = roundedUp(apart);
  return rounded < 1000 ? `${rounded} nm` : `${rounded / 1000} um`;
}

/** The units in which the size of an image is usually given: what is written in another has what is usual. */
const NANOMETRES: Readonly<Record<string, number>> = { nm: 1, um: 1e3, µm: 1e3, μm: 1e3, mm: 1e6 };

/** NaN where it is no such length. */
function inNanometres(text: string): number {
  const [, number, unit = ''] = /^(\d+(?:\.\d*)?)\s*(\p{L}+)$/u.exec(text.trim()) ?? [];
  return Number(number) * (NANOMETRES[unit] ?? Number.NaN);
}

/** What stands in the scenario: what somebody has typed, else what is usual. */
export function answerTo(question: Question, answers: Answers): string {
  const own = answers.unknown.has(question.key) ? undefined : answers.own.get(question.key);
  return own ?? usualAnswer(question, answers);
}

/** Where an answer stands in the scenario: nowhere, at one place, with all kinds of tips, or in both workflows. */
export function pathsOf({ path, of, kind }: Question, answers: Answers): readonly string[] {
  if (path === '') return [];
  if (of !== undefined) return [path.replace(of.toUpperCase(), nameOf(of, answers, kind))];
  if (path.includes('WORKFLOW')) return ['swap', 'hop'].map((name) => path.replace('WORKFLOW', name));
  return path.includes('TIP') ? namesOf('tip', answers).map((name) => path.replace('TIP', name)) : [path];
}

/** A question whose default another answer has changed. */
export interface Moved {
  readonly question: Question;
  readonly was: string;
  readonly now: string;
}

/** Of these questions those that nobody has answered and whose default is another than it was. */
export function movedDefaults(shown: readonly Question[], before: Answers, after: Answers): readonly Moved[] {
  return shown.flatMap(({ key, name, kind }) => {
    const [was, now] = [before, after].map((each) => answerTo(questionOf(name, each, kind), each));
    const question = questionOf(name, after, kind);
    return after.own.has(key) || was === now ? [] : [{ question, was, now }];
  });
}
