import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { beside, outputOf } from './job.js';
import { jobOn, PLAIN } from './plain-case.js';

/** Where a sampling profiler finds a campaign: shares of all samples within campaigns, and of garbage that they leave. */
export interface Profile {
  /** Shares that add up to 1, by part of the program. */
  readonly parts: readonly Share[];
  /** The functions that take most by themselves, most first. */
  readonly functions: readonly Share[];
  readonly samples: number;
}

export interface Share {
  readonly name: string;
  readonly share: number;
}

/** Campaigns of the profile: some ten seconds. */
const CAMPAIGNS = 50_000;
/** Microseconds between two samples. */
const INTERVAL = 500;
const MOST_FUNCTIONS = 15;

const profileSchema = z.object({
  nodes: z.array(
    z.object({
      id: z.number(),
      callFrame: z.object({ functionName: z.string(), url: z.string() }),
      children: z.array(z.number()).optional(),
    }),
  ),
  samples: z.array(z.number()),
});
/** What V8's profiler writes, as far as it is read here. */
export type CpuProfile = z.output<typeof profileSchema>;
type ProfileNode = CpuProfile['nodes'][number];

/** Folders of the program by what they do in a campaign; the first that a file's address holds counts. */
const PARTS: readonly (readonly [within: string, part: string])[] = [
  ['/dist/chance/threefry', 'luck: the generator'],
  ['/dist/chance/luck', 'luck: the generator'],
  ['/dist/chance/', 'luck: times and lives made of it'],
  ['/node_modules/', 'luck: times and lives made of it'],
  ['/dist/kernel/', 'the clock, who comes next, calendars'],
  ['/dist/probe/', 'what befalls a tip in a scan'],
  ['/dist/campaign/outcome', 'the books, and what comes of them'],
  ['/dist/campaign/ledger', 'the books, and what comes of them'],
  ['/dist/campaign/timesheet', 'the books, and what comes of them'],
  ['/dist/campaign/', 'the procedure, step by step'],
];
const GARBAGE = '(garbage collector)';

/** Runs the plain case on one thread under the profiler, in a process of its own. */
export function profilePlainCase(folder: string): Profile {
  const target = join(folder, 'profile');
  const job = jobOn(PLAIN, { slices: 1, slice: { campaigns: CAMPAIGNS } });
  const profiler = ['--cpu-prof', `--cpu-prof-dir=${target}`, `--cpu-prof-interval=${INTERVAL}`];
  outputOf(process.execPath, [...profiler, beside('ours.js')], JSON.stringify(job));
  const [file] = readdirSync(target);
  return profileOf(profileSchema.parse(JSON.parse(readFileSync(join(target, file), 'utf8'))));
}

/** @param profile its first node is the root, and a node stands before those called from it */
export function profileOf({ nodes, samples }: CpuProfile): Profile {
  const within = nodesWithin(nodes);
  const found = samples.map((sample) => within.get(sample)).filter((node) => node !== undefined);
  return {
    parts: sharesOf(found.map(partOf)),
    functions: sharesOf(found.map(nameOf)).slice(0, MOST_FUNCTIONS),
    samples: found.length,
  };
}

/** Each name with its share of all of them, most first. */
function sharesOf(names: readonly string[]): readonly Share[] {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return Array.from(counts, ([name, times]) => ({ name, share: times / names.length })).sort(
    (a, b) => b.share - a.share,
  );
}

/** Nodes at or below `CampaignRunner.run`, and the garbage collector, by their numbers. */
function nodesWithin(nodes: readonly ProfileNode[]): ReadonlyMap<number, ProfileNode> {
  const within = new Map<number, ProfileNode>();
  const below = new Set<number>();
  for (const node of nodes) {
    const { functionName, url } = node.callFrame;
    const isWithin = below.has(node.id) || (functionName === 'run' && url.includes('/dist/campaign/campaign'));
    if (isWithin || functionName === GARBAGE) within.set(node.id, node);
    if (isWithin) for (const child of node.children ?? []) below.add(child);
  }
  return within;
}

function partOf({ callFrame: { functionName, url } }: ProfileNode): string {
  if (functionName === GARBAGE) return 'memory: clearing up';
  return PARTS.find(([within]) => url.includes(within))?.[1] ?? 'V8 itself';
}

function nameOf({ callFrame: { functionName, url } }: ProfileNode): string {
  const file = /(?:\/dist\/|\/node_modules\/)(.*)$/u.exec(url)?.[1];
  const name = functionName === '' ? '(a function without a name)' : functionName;
  return file === undefined ? name : `\`${name}\` in ${file}`;
}
