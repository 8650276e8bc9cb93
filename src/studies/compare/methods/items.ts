import type { Assumption, StrategySummary, Summary } from '../../../analysis/results.js';
import { numberText, SHARE, workScale } from '../../../wording/numbers.js';
import { capital, counted, hoursRead, imagesText, listed } from '../../../wording/phrases.js';
import { drawnText } from '../page/parameter-uncertainty.js';
import {
  ALGORITHMS,
  ASSUMPTIONS_OF_STRUCTURE,
  BASE_LOGIC,
  ENTRY_AND_EXIT,
  EXECUTION,
  FAMILIES,
  INTERVALS,
  OUTPUTS,
  QUEUES,
  RANDOM_NUMBERS,
  RUN_LENGTH,
  STEPS,
  VALIDATION,
} from './model-text.js';

/** One item of the reporting guideline, answered in plain text: paragraphs, or points of a list. */
export interface Item {
  /** As in the guideline, such as `2.5.1`. */
  readonly number: string;
  readonly title: string;
  readonly text: (summary: Summary) => readonly string[];
}

export interface Section {
  readonly title: string;
  readonly items: readonly Item[];
}

/**
 * What a report of a discrete-event study must say, section by section and in order: Monks, Currie, Onggo, Robinson, Kunc
 * and Taylor, "Strengthening the reporting of empirical simulation studies: introducing the STRESS guidelines", Journal of
 * Simulation 13 (2019) 55. Titles are our own.
 */
export const SECTIONS: readonly Section[] = [
  {
    title: 'Objectives',
    items: [
      {
        number: '1.1',
        title: 'Purpose',
        text: ({ scenario }) => [
          ...(scenario.about === null ? [] : [scenario.about]),
          'The study asks which strategy completes the measurement plan, in how much instrument time and operator time, with what yield, and whether the answer rests on unmeasured values.',
        ],
      },
      { number: '1.2', title: 'Outputs', text: ({ confidence }) => [...OUTPUTS, ...INTERVALS(confidence)] },
      {
        number: '1.3',
        title: 'Aims',
        text: (summary) => summary.strategies.map((each) => strategyText(each, summary)),
      },
    ],
  },
  {
    title: 'Logic',
    items: [
      { number: '2.1', title: 'Steps', text: ({ strategies }) => STEPS(strategies.map(({ workflow }) => workflow)) },
      { number: '2.2', title: 'Base logic', text: () => BASE_LOGIC },
      { number: '2.3', title: 'Logic of each strategy', text: differencesInLogic },
      { number: '2.4', title: 'Decisions', text: () => ALGORITHMS },
      {
        number: '2.5.1',
        title: 'Entities',
        text: ({ scenario }) => [
          `Images (${imagesText(scenario.images, scenario.regions, scenario.samples.length)}; passes: ${listed(scenario.passes)}), tips, chips of tips, and specimens.`,
        ],
      },
      {
        number: '2.5.2',
        title: 'Activities',
        text: ({ scenario }) => [
          `Scans, ${numberText(scenario.scanTime, workScale(scenario.scanTime))} and ${numberText(scenario.slidingPath, { divisor: 1, unit: 'mm' })} of sliding path if each image is scanned once at the first strategy's pace, and the steps above. Each attempt at a step draws its time anew from the distribution in inputs.csv.`,
        ],
      },
      {
        number: '2.5.3',
        title: 'Resources',
        text: ({ scenario, allocation }) => [
          `${counted(scenario.instruments, 'instrument')}, booked: ${hoursRead(scenario.bookings)}; ${counted(scenario.operators, 'operator')}.`,
          allocation === null ? 'No time is granted.' : `Granted: ${allocation.text}.`,
        ],
      },
      { number: '2.5.4', title: 'Queues', text: () => QUEUES },
      { number: '2.5.5', title: 'Entry and exit', text: () => ENTRY_AND_EXIT },
    ],
  },
  {
    title: 'Data',
    items: [
      { number: '3.1', title: 'Sources', text: sources },
      { number: '3.2', title: 'Pre-processing', text: preprocessing },
      { number: '3.3', title: 'Inputs', text: () => FAMILIES },
      { number: '3.4', title: 'Assumptions', text: assumptions },
    ],
  },
  {
    title: 'Experimentation',
    items: [
      {
        number: '4.1',
        title: 'Initial state',
        text: () => [
          'Each replication is a terminating simulation that begins at the start named in inputs.csv with nothing set up and no tip used; warm-up of the instrument is a step of the model, and no output is discarded.',
        ],
      },
      { number: '4.2', title: 'Run length', text: () => RUN_LENGTH },
      {
        number: '4.3',
        title: 'Replications',
        text: ({ replications, stopping }) => [
          `${numberText(replications)} of each strategy, with common random numbers.`,
          `${capital(stopping.text.replace(/\.$/u, ''))}.`,
          ...(stopping.rule === 'fixed'
            ? []
            : [
                'The rule looks at the widths of intervals after 200, 400, 800 … replications, never at which strategy is ahead.',
              ]),
        ],
      },
    ],
  },
  {
    title: 'Implementation',
    items: [
      {
        number: '5.1',
        title: 'Software',
        text: ({ tool }) => [
          `${tool.name} ${tool.version}${tool.commit === null ? '' : `, commit ${tool.commit}`}: a discrete-event simulator in TypeScript. The libraries from which numbers come, with their versions, are in its bill of materials (shared/sbom.cdx.json).`,
        ],
      },
      { number: '5.2', title: 'Random numbers', text: ({ seed }) => [`Seed text: ${seed}.`, ...RANDOM_NUMBERS] },
      { number: '5.3', title: 'Execution', text: () => EXECUTION },
      {
        number: '5.4',
        title: 'Machine',
        text: ({ platform }) => [
          platform === null
            ? 'The machine is not on record; it changes no result.'
            : `Made on ${platform.system}, ${platform.architecture}, Node ${platform.node}; the machine changes no result. The time it took is shown in the terminal.`,
        ],
      },
    ],
  },
  {
    title: 'Access',
    items: [
      {
        number: '6.1',
        title: 'Code and model',
        text: ({ tool, inputs }) => [
          `${tool.name} is open source (Apache-2.0).`,
          ...inputs.map(({ file, sha256 }) => `Input ${file}, SHA-256 ${sha256}.`),
          ...VALIDATION,
        ],
      },
    ],
  },
];

/** Values that a strategy sets itself, as the table of assumptions has them. */
function ownValues({ name }: StrategySummary, { assumptions }: Summary): readonly Assumption[] {
  return assumptions.filter(({ path }) => path.startsWith(`strategies.${name}.`));
}

function strategyText(strategy: StrategySummary, summary: Summary): string {
  const { name, workflow, pace } = strategy;
  const own = ownValues(strategy, summary).map(
    ({ description, value }) => `${withoutName(description, name)}: ${value}`,
  );
  const paces = Object.entries(pace)
    .filter(([, value]) => value !== 1)
    .map(([what, value]) => `pace of ${what}: ${value}`);
  const differs = [...own, ...paces];
  return `“${name}”: ${WORKFLOW_WORDS[workflow]}${differs.length === 0 ? '' : `; ${differs.join('; ')}`}.`;
}

const WORKFLOW_WORDS: Readonly<Record<StrategySummary['workflow'], string>> = {
  swap: 'the probe is exchanged by hand and the region relocated',
  hop: 'array-hop: the specimen on the lever moves to another tip of the chip',
};

/** A value of a strategy has the strategy's name behind its description. */
function withoutName(description: string, name: string): string {
  const behind = ` (${name})`;
  return description.endsWith(behind) ? description.slice(0, -behind.length) : description;
}

function differencesInLogic(summary: Summary): readonly string[] {
  const workflows = new Set(summary.strategies.map(({ workflow }) => workflow));
  return [
    workflows.size > 1
      ? 'The workflows share the plan, the tips, noticing and the calendar; they differ in the steps of a change of tip and of sample, in what stock they use, and in that a hop can lose the specimen.'
      : 'All strategies follow the same workflow.',
    'Beyond that, strategies differ in the values named under 1.3 and in no rule of the model.',
  ];
}

function sources({ assumptions }: Summary): readonly string[] {
  const of = (standing: Assumption['standing']) => assumptions.filter((entry) => entry.standing === standing).length;
  const named = new Set(assumptions.flatMap(({ source }) => (source === null ? [] : [source])));
  return [
    `${counted(assumptions.length, 'value')}: ${of('choice')} chosen (plan, rules, hours), ${of('published')} published defaults, ${of('given source')} with a source named in the scenario, ${of('assumed')} assumed.`,
    ...(named.size === 0 ? [] : [`Sources named: ${[...named].join('; ')}.`]),
  ];
}

function preprocessing(summary: Summary): readonly string[] {
  const { parameterUncertainty } = summary;
  if (parameterUncertainty === null) return ['No value was estimated from records by this program.'];
  const known = { ...summary, parameterUncertainty };
  return [
    ...parameterUncertainty.inputs.map(
      ({ description, from }) =>
        `${description}: ${from === 'fit' ? 'estimated from records, with its uncertainty' : 'a range given by hand, taken as the middle 95 % of a distribution'}.`,
    ),
    drawnText(known),
  ];
}

function assumptions({ assumptions, verdict, confidence }: Summary): readonly string[] {
  const assumed = assumptions.filter(({ standing }) => standing === 'assumed').length;
  return [
    ...ASSUMPTIONS_OF_STRUCTURE,
    `Each of the ${counted(assumed, 'assumed value')} has a plausible range in inputs.csv. The difference from the first strategy was simulated again at both limits of each range, one at a time, with ${numberText(confidence.level, SHARE)} intervals: ${counted(verdict.reversals.length, 'limit')} reversed or weakened a clear difference.`,
  ];
}
