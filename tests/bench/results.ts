import type { Baseline, Lacking } from './baselines.js';
import type { CompareCost, PlanCost } from './growth.js';
import { MEASURES } from './job.js';
import type { Surroundings } from './machine.js';
import { count, megabytes, met, spread, table, times } from './markdown.js';
import { type PlainCase, TARGETS } from './plain-case.js';
import type { Profile } from './profile.js';
import type { StrategySpeed } from './scenarios.js';
import type { StudyCost, ThreadGain } from './studies.js';

/** Everything that a run of the benchmark has measured. */
export interface Results {
  readonly surroundings: Surroundings;
  readonly baselines: readonly Baseline[];
  readonly lacking: readonly Lacking[];
  readonly plain: PlainCase;
  readonly profile: Profile;
  readonly scenarios: readonly StrategySpeed[];
  readonly studies: readonly StudyCost[];
  readonly byPlan: readonly PlanCost[];
  readonly comparing: readonly CompareCost[];
  readonly threads: ThreadGain | null;
}

/** How much faster two threads are to be on two cores. */
const THREADS_TARGET = 1.8;
const GIGABYTE = 1e9;
/** Cores that others may want while it is measured. */
export const IDLE = 0.5;

/** The record of a run, in Markdown. */
export function resultsText(results: Results): string {
  return `# How fast it is

Written by \`npm run bench\`; nothing here is put right by hand.

${surroundingsText(results)}

Speeds are campaigns in a second of processor time (user, all threads of the process), on one thread, after warming up. A
spread is the middle of several measurements with the least and the most in brackets. Seconds tell of this machine and
of this hour; ratios were taken round by round between programs that ran right after each other, and tell more.

## The targets

${targetsText(results)}

## The plain case, side by side

One instrument, probes swapped by hand, 180 images: \`plain.yaml\` says all. The same case is written three times more: as a
process model in SimPy (\`plain_simpy.py\`: what one would write in an afternoon instead), for this case alone in JavaScript with
the project's draw for every purpose (\`plain_keyed.js\`: about what common random numbers allow), and as an event simulation in
C++ for this case alone (\`plain.cpp\`: about what the machine can do). They took turns for ${results.plain.rounds} rounds.

${plainText(results.plain)}

${luckText(results.plain)}

${sameText(results.plain)} The figures of the baselines are kept in
\`baselines.json\`, and a test holds ours to them.

${agreementText(results.plain)}

## Where the time of a campaign goes

${profileText(results)}

## Each scenario

One strategy at a time. An event is the end of a step that takes time, or something that happens to a tip in a scan.

${scenariosText(results.scenarios)}

## Whole commands

From the start of the process to its end, report and charts and all.

${studiesText(results.studies)}

## How it grows

With the plan: the plain case with one image a region. What an image costs should stay the same.

${byPlanText(results.byPlan)}

With everything, as whole runs of \`compare\` on the same plan, report included; strategies are all alike but in name.
${results.comparing.some(({ replications }) => replications >= 1e6) ? '' : '`npm run bench -- --long` adds 100 000 images and a million replications, for which the target for memory is under 1 GB.'}

${comparingText(results.comparing)}

${threadsText(results.threads)}
`;
}

function surroundingsText({ surroundings, baselines, lacking }: Results): string {
  const { date, commit, isChanged, machine, system, node, load } = surroundings;
  const rows = [
    ['date', date],
    ['commit', isChanged ? `${commit}, and changes since` : commit],
    ['machine', machine],
    ['system', system],
    ['ours', `Node ${node}`],
    ...baselines.map(({ name, version }) => [name, version]),
    ...lacking.map(({ name, lacks }) => [name, `not measured: ${lacks}`]),
    ['wanting a core in the minute before', load.toFixed(1)],
  ];
  const busy =
    load > IDLE
      ? '\n\n**The machine was not idle: seconds and spreads tell little, ratios less than they could.**'
      : '';
  return `${table(['', ''], rows)}${busy}`;
}

function targetsText({ plain, threads, comparing }: Results): string {
  const rows = plain.programs.flatMap(({ name, ratio }) => {
    if (ratio === null) return [];
    const target = TARGETS[name];
    return [[`ours over ${name}, one thread`, `at least ${target}`, times(ratio), met(ratio.median >= target)]];
  });
  if (threads !== null) {
    const { gain, further, few, replications } = threads;
    const gains = [
      [`two threads over one, replications beyond ${count(few)}`, further],
      [`two threads over one, a whole command of ${count(replications)} replications`, gain],
    ] as const;
    for (const [what, of] of gains)
      rows.push([what, `at least ${THREADS_TARGET}`, times(of), met(of.median >= THREADS_TARGET)]);
  }
  const big = comparing.filter(({ images, replications }) => images >= 1e5 || replications >= 1e6);
  for (const { images, replications, used } of big) {
    const what = `memory, ${count(images)} images, ${count(replications)} replications`;
    rows.push([what, 'under 1 GB', megabytes(used.peak), met(used.peak < GIGABYTE)]);
  }
  return table(['', 'target', 'measured', ''], rows);
}

function plainText({ programs, eventsPerCampaign }: PlainCase): string {
  const rows = programs.map(({ name, perUser, perWall, ratio, ratioByWall }) => [
    name,
    spread(perUser, 0),
    count(Math.round(perUser.median * eventsPerCampaign)),
    spread(perWall, 0),
    ratio === null ? '' : times(ratio),
    ratioByWall === null ? '' : times(ratioByWall),
  ]);
  const heads = [
    '',
    'campaigns a second',
    'events a second',
    'by the clock',
    'ours over it',
    'ours over it by the clock',
  ];
  return table(heads, rows);
}

/** What share of the time that a campaign takes the target beside each baseline leaves for it. */
function leftBy(programs: PlainCase['programs']): readonly { readonly name: string; readonly left: number }[] {
  return programs.flatMap(({ name, ratio }) => (ratio === null ? [] : [{ name, left: ratio.median / TARGETS[name] }]));
}

/** What part of a campaign luck is, and what the targets leave for all of it. */
function luckText({ programs, eventsPerCampaign, draws }: PlainCase): string {
  const left = leftBy(programs).map(({ name, left }) => `${left.toFixed(2)} of it (the target beside ${name})`);
  return `A campaign of ours has ${eventsPerCampaign.toFixed(0)} events on average and asks for ${draws.perCampaign.toFixed(0)} draws. The draws alone, with the times
and lives that are made of them, the same bits on every machine, take ${spread(draws.share, 2)} of the
time that a campaign takes. The targets leave, for the draws and all the rest, ${left.join(', and ')}.`;
}

function profileText({ profile, plain }: Results): string {
  const rows = (shares: Profile['parts']) => shares.map(({ name, share }) => [name, share.toFixed(3)]);
  return `The plain case under V8's sampling profiler, ${count(profile.samples)} samples. Small functions are built into those that call them and
count as theirs, so that borders between parts are not sharp.

${table(['part', 'share'], rows(profile.parts))}

The functions that take most by themselves:

${table(['function', 'share'], rows(profile.functions))}

${neededText(plain, profile)}`;
}

/** What it would take to meet the targets that are not. */
function neededText({ programs, draws }: PlainCase, { functions }: Profile): string {
  const missed = leftBy(programs).filter(({ left }) => left < 1);
  if (missed.length === 0) return 'The targets of one thread are met.';
  const luck = draws.share.median;
  const each = missed.map(({ name, left }) => {
    const rest =
      left <= luck
        ? 'the target would be missed if everything else took no time'
        : `everything else would have to be done in ${((left - luck) / (1 - luck)).toFixed(2)} of its time`;
    return `Beside ${name} a campaign may take ${left.toFixed(2)} of what it takes; the draws alone take ${luck.toFixed(2)}, so ${rest}.`;
  });
  return `**What would be needed.** ${each.join(' ')} No function takes more than ${functions[0].share.toFixed(2)} by itself. It would take
one routine for one case alone, with no objects and no calls between a step and the next, as in \`plain_keyed.js\`, where now the same
interpreter plays every workflow, rule and calendar.`;
}

/** Standard errors of the difference that two means may lie apart. */
const APART = 4;

function sameText({ furthest }: PlainCase): string {
  const agree = MEASURES.every((measure) => furthest[measure] <= APART);
  return agree
    ? `No difference between them was found: no two means lie more than ${APART} standard errors of their difference apart.`
    : `**They do not simulate the same thing**: some means lie more than ${APART} standard errors of their difference apart.`;
}

const NAMES = {
  totalTime: ['total time, h', 3],
  yield: ['yield', 5],
  tips: ['tips', 3],
  takes: ['takes', 3],
  undetectedBadShare: ['undetected bad share', 6],
} as const;

function agreementText({ programs, furthest }: PlainCase): string {
  const rows = MEASURES.map((measure) => {
    const [name, digits] = NAMES[measure];
    const means = programs.map(({ means }) => {
      const { mean, standardError } = means[measure];
      return `${mean.toFixed(digits)} ± ${standardError.toFixed(digits)}`;
    });
    return [name, ...means, furthest[measure].toFixed(1)];
  });
  const of = programs.map(({ means }) => count(means.takes.count));
  const heads = ['mean ± standard error', ...programs.map(({ name }) => name), 'furthest apart, standard errors'];
  return table(heads, [...rows, ['campaigns', ...of, '']]);
}

function scenariosText(scenarios: readonly StrategySpeed[]): string {
  return table(
    ['scenario', 'strategy', 'images', 'events a campaign', 'campaigns a second', 'events a second'],
    scenarios.map(({ scenario, strategy, images, eventsPerCampaign, campaigns }) => [
      scenario,
      strategy,
      count(images),
      eventsPerCampaign.toFixed(0),
      spread(campaigns, 0),
      count(Math.round(campaigns.median * eventsPerCampaign)),
    ]),
  );
}

function studiesText(studies: readonly StudyCost[]): string {
  return table(
    ['command', 'processor, s', 'clock, s', 'most memory'],
    studies.map(({ command, user, wall, peak }) => [
      `\`${command}\``,
      spread(user, 1),
      spread(wall, 1),
      megabytes(peak),
    ]),
  );
}

function byPlanText(byPlan: readonly PlanCost[]): string {
  return table(
    ['images', 'events a campaign', 'events an image', 'processor for an image, µs', 'over the plan before'],
    byPlan.map(({ images, eventsPerCampaign, perImage }, i) => [
      count(images),
      eventsPerCampaign.toFixed(0),
      (eventsPerCampaign / images).toFixed(2),
      spread(perImage, 2),
      i === 0 ? '' : `× ${(perImage.median / byPlan[i - 1].perImage.median).toFixed(2)}`,
    ]),
  );
}

function comparingText(comparing: readonly CompareCost[]): string {
  return table(
    ['images', 'replications', 'strategies', 'processor, s', 'clock, s', 'most memory'],
    comparing.map(({ images, replications, strategies, used }) => [
      count(images),
      count(replications),
      String(strategies),
      used.seconds.user.toFixed(1),
      used.seconds.wall.toFixed(1),
      megabytes(used.peak),
    ]),
  );
}

function threadsText(threads: ThreadGain | null): string {
  if (threads === null) return '';
  const { replications, oneThread, twoThreads, gain, further, few, coresOfOne } = threads;
  return `## All cores

A whole \`compare tests/bench/plain.yaml --replications ${replications}\`, report included: ${spread(oneThread, 1)} s by the clock on one thread,
${spread(twoThreads, 1)} s on two: ${times(gain)}. Replications beyond the first ${count(few)}, without what does not grow with them (start and
pictures): ${times(further)}. With one thread at work on campaigns the other core is not idle: reading, keeping and writing go
on beside it, so that one thread uses ${spread(coresOfOne, 2)} cores.`;
}
