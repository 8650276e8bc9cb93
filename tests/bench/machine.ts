import { readFileSync } from 'node:fs';
import { cpus, loadavg, release, totalmem } from 'node:os';
import { root } from '../support/command.js';
import { outputOf } from './job.js';

/** On what, with what and when was measured. */
export interface Surroundings {
  readonly date: string;
  readonly commit: string;
  /** Sources differ from the commit. */
  readonly isChanged: boolean;
  readonly machine: string;
  readonly system: string;
  readonly node: string;
  /** Processes that wanted a core in the minute before, on average. */
  readonly load: number;
  readonly cores: number;
}

export function surroundings(): Surroundings {
  const git = (...args: readonly string[]) => outputOf('git', ['-C', root, ...args]).trim();
  const { length, 0: first } = cpus();
  return {
    date: new Date().toISOString().slice(0, 10),
    commit: git('rev-parse', '--short=10', 'HEAD'),
    isChanged: git('status', '--porcelain', '--', 'src', 'tests/bench') !== '',
    machine: `${first.model}, ${length} cores, ${(totalmem() / 2 ** 30).toFixed(0)} GiB`,
    system: `${systemName()}, kernel ${release()}`,
    node: process.version,
    load: loadavg()[0],
    cores: length,
  };
}

function systemName(): string {
  try {
    return /^PRETTY_NAME="?([^"\n]*)/m.exec(readFileSync('/etc/os-release', 'utf8'))?.[1] ?? process.platform;
  } catch {
    return process.platform;
  }
}
