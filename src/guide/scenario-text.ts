import {
  answerTo,
  type Answers,
  kindsIn,
  type Known,
  knownOf,
  pathsOf,
  type Question,
  type QuestionName,
  questionOf,
  questions,
} from './questions.js';

/** How much longer than usual a step takes in one case of ten, and where nothing is known of it. */
const P90 = { known: 1.7, unknown: 3 };

/** A complete scenario with comments, from what somebody has answered. */
export function scenarioText(answers: Answers): string {
  const at = (name: QuestionName, kind = 0) => new Answered(questionOf(name, answers, kind), answers);
  const each = (of: 'image' | 'tip', write: (kind: number) => string, between = '\n') =>
    Array.from({ length: kindsIn(of, answers) }, (_, kind) => write(kind)).join(between);
  const isIn = (...environments: readonly string[]) => environments.includes(at('environment').text);
  const time = (name: QuestionName, more = '') => {
    const { text, isUnknown } = at(name);
    return `{ usual: ${text}, p90: ${times(text, isUnknown ? P90.unknown : P90.known) ?? text}${more} }`;
  };
  const line = (indent: number, key: string, name: QuestionName, kind = 0) =>
    `${' '.repeat(indent)}${key}: ${at(name, kind).yaml} # ${at(name, kind).comment}`;
  const pass = (kind: number) => `    - name: ${at('image', kind).yaml}
      tip: ${at('tipOf', kind).yaml} # described under \`tips\`
${line(6, 'size', 'size', kind)}
${line(6, 'lines', 'lines', kind)}
${line(6, 'lineRate', 'lineRate', kind)}
${line(6, 'neededResolution', 'resolution', kind)}
      dip: 0.5 nm # the least dip between two features that the noise lets you see: assumed
      accept: 0.8 # an image of at least this quality (0 to 1) is good: assumed`;
  const tip = (kind: number) => `  ${at('tip', kind).yaml}:
    radius: { nominal: ${at('radius', kind).yaml}, geometricSd: 1.3 } # ${at('radius', kind).comment}
    blunting: { wear: { archardK: 0.001, hardness: 12 GPa } } # leave \`blunting\` out if wear does not matter
    hazards:
      - cause: breakage
        per: approach
        life: { distribution: probability, perUnit: ${at('breakage').yaml} } # ${at('breakage').comment}
        acceleration: { hands: 1 } # more in a hurry
      - cause: fouling # contamination
        per: image
        life: { distribution: exponential, mean: ${at('contamination').yaml} } # ${at('contamination').comment}
        quality: 0.5 # what is left of the image quality while the tip is contaminated: assumed
        clears: 5 # further images until it comes off by itself; or: never
      - cause: chipping # a piece of the apex breaks off and the radius jumps
        per: image
        life: { distribution: exponential, mean: ${at('chipping').yaml} } # ${at('chipping').comment}
        radiusFactor: { median: 2, geometricSd: 1.5 }
${line(4, 'price', 'price', kind)}`;
  const cautions = ['laser', 'high-voltage', 'sharp-silicon', ...(isIn('vacuum') ? ['vacuum'] : [])];
  const notes = questions(answers).flatMap((question) =>
    question.within === undefined
      ? []
      : pathsOf(question, answers).map((path) => ({ path, answered: new Answered(question, answers) })),
  );
  const ranges = notes.flatMap(({ path, answered }) =>
    answered.range === null ? [] : [`  ${path}: ${answered.range}`],
  );
  return `# A scenario made from a few answers. Change it to your plan; then
#
#   swap-or-hop preview FILE     says what is wrong or only assumed
#   swap-or-hop compare FILE     compares the strategies and writes a report
#   swap-or-hop explore FILE     shows it as a page to change and see
#
# What is marked "unknown" is tried over a wide range (see \`ranges\` at the end); what is "measured here" is not varied.
# What you leave out has a default.

title: ${at('title').yaml}
seed: '1' # any text; the same seed gives the same numbers
cautions: [${cautions.join(', ')}]

# ---- What is to be measured: every region of every sample once for each pass; each kind of image is a pass.
plan:
${line(2, 'samples', 'samples')}
${line(2, 'regions', 'regions')}
  passes:
${each('image', pass)}

# ---- The tips: how sharp they are when new, and what can happen to them.
tips:
${each('tip', tip)}

# ---- The two workflows. What is left out has a default; \`usual\` is the median, \`p90\` is not exceeded nine times in ten.
workflows:
  swap:
    steps:
      warmUp: ${time('warmUp')} # ${at('warmUp').comment}
      exchange: ${time('exchange')} # ${at('exchange').comment}
      relocate: ${time('relocate', ', success: 0.9')} # ${at('relocate').comment}
      settle: ${time('settle')} # ${at('settle').comment}${isIn('vacuum') ? VACUUM.swap : ''}
    haste: { successExponent: 1.5 } # manual steps fail more often in a hurry: assumed
  hop:
    steps:
      warmUp: ${time('warmUp')} # as for the swap
      prepare: ${time('prepare', ', success: 0.8')} # ${at('prepare').comment}
      settle: ${time('hopSettle')} # ${at('hopSettle').comment}${isIn('vacuum') ? VACUUM.hop : ''}
    haste: { successExponent: 1.5 }
    chip:
${line(6, 'price', 'chip')}
      sites: { ${each('tip', (kind) => `${at('tip', kind).yaml}: ${at('sites', kind).yaml}`, ', ')} } # ${at('sites').comment}
      dead: { ${each('tip', (kind) => `${at('tip', kind).yaml}: ${at('dead').yaml}`, ', ')} } # ${at('dead').comment}

# ---- How a spoiled tip is noticed: assumed.
noticing:
  review: { by: operator, time: 1 min, sensitivity: 0.9, falseAlarm: 0.02 }
  attempts: 4 # scans that an image gets before it is given up

# ---- When somebody is there, and what is booked. A time plan is never a reason to shorten a safety step.
operators: { hours: ${at('hours').yaml} }
bookings:
${line(2, 'hours', 'hours')}
${line(2, 'allocation', 'allocation')}
  unattended: scanning # what may start while nobody is there: none, scanning or hopping

costs:
${line(2, 'instrumentHour', 'instrument')}
${line(2, 'operatorHour', 'operator')}

# ---- What is compared; the first one is the yardstick.
strategies:
  - { name: swap by hand, workflow: swap }
  - { name: hop, workflow: hop }

# ---- Where values come from: put yours in once they are measured. What is only assumed is tried at both limits of its range.
sources:
${notes.map(({ path, answered }) => `  ${path}: '${answered.source}'`).join('\n')}
${ranges.length === 0 ? '' : `\n# ---- Of these nothing is known.\nranges:\n${ranges.join('\n')}\n`}`;
}

/** Steps that take longer in vacuum, where everything goes through a transfer: common practice, no source. */
const VACUUM = {
  swap: `
      setUp: { min: 2 h, mode: 3 h, max: 6 h } # in vacuum: common practice, no source
      changeSample: { min: 1 h, mode: 2 h, max: 4 h }`,
  hop: `
      setUp: { min: 2 h, mode: 3 h, max: 6 h }
      changeSample: { min: 1 h, mode: 2 h, max: 4 h }
      chipExchange: { min: 2 h, mode: 3 h, max: 6 h }`,
};

/** A value with its unit, so many times as large; null where it is none. */
function times(written: string, by: number): string | null {
  const parts = /^(\d+(?:\.\d*)?|\.\d+)\s*(\D.*|)$/su.exec(written);
  return parts === null ? null : `${Number((Number(parts[1]) * by).toPrecision(3))} ${parts[2]}`.trim();
}

/** One question with what is answered to it, as the scenario has it. */
class Answered {
  readonly text: string;
  private readonly known: Known;
  private readonly isOwn: boolean;

  constructor(
    private readonly question: Question,
    answers: Answers,
  ) {
    this.text = answerTo(question, answers).trim();
    this.known = knownOf(question.key, answers);
    this.isOwn = answers.own.has(question.key);
  }

  get isUnknown(): boolean {
    return this.known === 'unknown';
  }

  /** As YAML has it on one line: words that could mean something else stand between quotes. */
  get yaml(): string {
    return /^[\p{L}\p{N}][\p{L}\p{N} ./%-]*$/u.test(this.text) ? this.text : JSON.stringify(this.text);
  }

  /** With the value itself, so that it stays true where another is put there later. */
  get comment(): string {
    if (this.isUnknown) return `unknown: tried ${this.ends === null ? 'widely' : this.ends.join(' to ')}`;
    if (this.known === 'measured') return `measured here: ${this.text}`;
    return this.isOwn ? `your answer: ${this.text}` : `default ${this.text}: ${this.question.from}`;
  }

  get source(): string {
    if (this.isUnknown) return 'assumed: unknown, so tried over a wide range';
    if (this.known === 'measured') return 'measured here, as answered at the start';
    return this.isOwn
      ? 'estimate, as answered at the start'
      : `assumed: ${this.question.from.replace(/^assumed, /u, '')}`;
  }

  /** How far it may lie off where nothing is known, as the scenario writes it; null where something is. */
  get range(): string | null {
    return this.isUnknown && this.ends !== null ? `[${this.ends.join(', ')}]` : null;
  }

  private get ends(): readonly string[] | null {
    const [low, high] = this.question.within?.map((by) => times(this.text, by)) ?? [null, null];
    return low === null || high === null ? null : [low, high];
  }
}
