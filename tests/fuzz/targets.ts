import { COMMAND_TARGETS } from './command-targets.js';
import { LOG_TARGETS } from './log-targets.js';
import { SCENARIO_TARGETS } from './scenario-targets.js';
import { SHARD_TARGETS } from './shard-targets.js';
import { type Drawn, fuzz, fuzzAndKeep, type Fuzzed, type Target } from './target.js';

/** A target with its cases hidden, so that targets of all kinds stand in one list. */
export interface Named {
  readonly name: string;
  readonly promise: string;
  /** Only every so many cases are tried. */
  readonly every: number;
  readonly run: (drawn: Drawn) => Promise<Fuzzed>;
  /** The same, with what is telling kept in the corpus. */
  readonly runAndKeep: (drawn: Drawn) => Promise<Fuzzed>;
}

function named<Case>(name: string, target: Target<Case>): Named {
  const { promise, every = 1 } = target;
  const fewer = (drawn: Drawn) => ({ ...drawn, cases: Math.ceil(drawn.cases / every) });
  return {
    ...{ name, promise, every },
    run: (drawn) => fuzz(name, target, fewer(drawn)),
    runAndKeep: (drawn) => fuzzAndKeep(name, target, fewer(drawn)),
  };
}

/** Everything that is fuzzed. */
export const TARGETS: readonly Named[] = [
  named('any scenario', SCENARIO_TARGETS['any scenario']),
  named('any comparison', SCENARIO_TARGETS['any comparison']),
  named('almost valid scenario', SCENARIO_TARGETS['almost valid scenario']),
  named('spoiled scenario text', SCENARIO_TARGETS['spoiled scenario text']),
  named('scenario of noise', SCENARIO_TARGETS['scenario of noise']),
  named('any log', LOG_TARGETS['any log']),
  named('spoiled log', LOG_TARGETS['spoiled log']),
  named('spoiled table of radii', LOG_TARGETS['spoiled table of radii']),
  named('spoiled table of drift', LOG_TARGETS['spoiled table of drift']),
  named('spoiled table of a state', LOG_TARGETS['spoiled table of a state']),
  named('shard file', SHARD_TARGETS['shard file']),
  named('command line', COMMAND_TARGETS['command line']),
];
