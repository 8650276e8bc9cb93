import { join } from 'node:path';
import { z } from 'zod';
import { beside, meansSchema, outputOf, secondsSchema } from './job.js';

const PYTHON = '/usr/bin/python3';

const ranSchema = z.object({ campaigns: z.number(), seconds: secondsSchema, means: meansSchema });
/** Campaigns of a baseline, with the means of their measures. */
export type Ran = z.output<typeof ranSchema>;

/** Another program for the plain case, ready to be run. */
export interface Baseline {
  readonly name: string;
  readonly file: string;
  /** What it is run or built with. */
  readonly version: string;
  /** Campaigns of one round, about two seconds of them. */
  readonly campaigns: number;
  run(seed: number): Ran;
}

/** Why a baseline cannot be run, and what helps. */
export interface Lacking {
  readonly name: string;
  readonly lacks: string;
}

/** The baselines, built in a folder, or what they lack. */
export function baselinesIn(folder: string): readonly (Baseline | Lacking)[] {
  return [simpy(), keyed(), cpp(folder)];
}

function simpy(): Baseline | Lacking {
  const name = 'SimPy';
  const campaigns = 800;
  const file = 'plain_simpy.py';
  try {
    const version = outputOf(PYTHON, ['-c', 'import sys, simpy; print(sys.version.split()[0], simpy.__version__)']);
    const [python, library] = version.trim().split(' ');
    return {
      ...{ name, file, campaigns },
      version: `Python ${python}, SimPy ${library}`,
      run: (seed) => ran(PYTHON, [beside(file), String(campaigns), String(seed)]),
    };
  } catch {
    return { name, lacks: 'Debian’s python3-simpy3 is not installed: apt-get install python3-simpy3' };
  }
}

/** The case alone in JavaScript, with keyed draws. */
function keyed(): Baseline {
  const file = 'plain_keyed.js';
  const campaigns = 40_000;
  return {
    ...{ name: 'keyed JavaScript', file, campaigns },
    version: `Node ${process.versions.node}`,
    run: (seed) => ran(process.execPath, [beside(file), String(campaigns), String(seed)]),
  };
}

function cpp(folder: string): Baseline | Lacking {
  const name = 'C++';
  const campaigns = 60_000;
  const file = 'plain.cpp';
  const program = join(folder, 'plain');
  try {
    const version = outputOf('g++', ['-dumpfullversion']).trim();
    outputOf('g++', ['-std=c++17', '-O3', beside(file), '-o', program]);
    return {
      ...{ name, file, campaigns },
      version: `g++ ${version} -O3`,
      run: (seed) => ran(program, [String(campaigns), String(seed)]),
    };
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT')
      return { name, lacks: 'g++ is not installed: apt-get install g++' };
    throw error;
  }
}

function ran(program: string, args: readonly string[]): Ran {
  return ranSchema.parse(JSON.parse(outputOf(program, args)));
}
