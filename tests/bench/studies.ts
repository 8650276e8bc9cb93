import { join } from 'node:path';
import { root } from '../support/command.js';
import { outputOf, use } from './job.js';
import { spreadOf, type Spread, usedSpread } from './spread.js';

const DEMO = 'scenarios/ambient-islands.yaml';

/** Whole commands, as one would type them. */
const COMMANDS: readonly (readonly string[])[] = [
  ['compare', DEMO],
  ['sensitivity', DEMO],
  ['tune', DEMO, '--strategy', 'hop', '--vary', 'rules.after=4..40 images by 4, none', '--goal', 'least-cost'],
];
const TIMES = 3;

export interface StudyCost {
  readonly command: string;
  readonly user: Spread;
  readonly wall: Spread;
  /** Bytes. */
  readonly peak: number;
}

/** Runs the studies from start to end, in turn, with their reports in a folder. */
export function costOfStudies(folder: string, tell: (what: string) => void): readonly StudyCost[] {
  const runs = Array.from({ length: TIMES }, (_, time) =>
    COMMANDS.map((command) => {
      tell(`${command[0]}, ${time + 1} of ${TIMES}`);
      return use([...command, '--out', join(folder, command[0])]);
    }),
  );
  return COMMANDS.map((command, i) => ({
    command: command.map((word) => (word.includes(' ') ? `'${word}'` : word)).join(' '),
    ...usedSpread(runs.map((run) => run[i])),
  }));
}

/** One thread over two, by the clock. */
export interface ThreadGain {
  readonly replications: number;
  readonly oneThread: Spread;
  readonly twoThreads: Spread;
  /** Of the whole command. */
  readonly gain: Spread;
  /** Of what a run of `few` replications does not take: start, pictures and whatever else does not grow with them. */
  readonly further: Spread;
  readonly few: number;
  /** Processor seconds (user) of a second by the clock, on one thread. */
  readonly coresOfOne: Spread;
}

const REPLICATIONS = 200_000;
const FEW = 20_000;

/** How much faster two threads are; null where the command cannot spread its work. */
export function gainOfThreads(folder: string, tell: (what: string) => void): ThreadGain | null {
  const help = outputOf(process.execPath, [join(root, 'dist/cli/main.js'), 'compare', '--help']);
  if (!help.includes('--threads')) return null;
  const seconds = (threads: number, replications: number) => {
    const size = ['--replications', String(replications), '--threads', String(threads)];
    return use(['compare', 'tests/bench/plain.yaml', ...size, '--out', join(folder, 'threads')]).seconds;
  };
  const onThreads = (threads: number) => {
    const { wall, user } = seconds(threads, REPLICATIONS);
    return { whole: wall, further: wall - seconds(threads, FEW).wall, cores: user / wall };
  };
  const rounds = Array.from({ length: TIMES }, (_, round) => {
    tell(`threads, round ${round + 1} of ${TIMES}`);
    return { one: onThreads(1), two: onThreads(2) };
  });
  return {
    ...{ replications: REPLICATIONS, few: FEW },
    oneThread: spreadOf(rounds.map(({ one }) => one.whole)),
    twoThreads: spreadOf(rounds.map(({ two }) => two.whole)),
    gain: spreadOf(rounds.map(({ one, two }) => one.whole / two.whole)),
    further: spreadOf(rounds.map(({ one, two }) => one.further / two.further)),
    coresOfOne: spreadOf(rounds.map(({ one }) => one.cores)),
  };
}
