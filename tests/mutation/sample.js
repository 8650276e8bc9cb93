import { createHash } from 'node:crypto';
import { declareValuePlugin, PluginKind } from '@stryker-mutator/api/plugin';

/** Whether a change is in the sample: what its number and the seed come to, not the order of asking. */
export function isSampled({ id }) {
  const text = JSON.stringify([process.env.MUTATION_SEED, id]);
  return createHash('sha256').update(text).digest().readUInt32BE(0) / 2 ** 32 < Number(process.env.MUTATION_SHARE);
}

/** Leaves out what is not in the sample, in place of a compiler that would refuse it. */
export const strykerPlugins = [
  declareValuePlugin(PluginKind.Checker, 'sample', {
    init: () => Promise.resolve(),
    group: (mutants) => Promise.resolve([mutants.map(({ id }) => id)]),
    check: (mutants) =>
      Promise.resolve(
        Object.fromEntries(
          mutants.map((mutant) => [
            mutant.id,
            isSampled(mutant) ? { status: 'passed' } : { status: 'compileError', reason: 'not in the sample' },
          ]),
        ),
      ),
  }),
];
