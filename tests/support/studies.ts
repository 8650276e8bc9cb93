import { join } from 'node:path';
import { root } from './command.js';

const state = join(root, 'tests/support/small-state.csv');
const finished = join(root, 'tests/support/small-finished.csv');

/** Every command that studies a scenario, with options that keep it short; what it writes beside page, summary and charts. */
export const STUDIES: readonly (readonly [command: string, options: readonly string[], files: readonly string[]])[] = [
  ['budget', ['--replications', '100', '--granted', '2 h'], ['proposal.md', 'proposal.txt']],
  ['breakeven', ['--vary', 'plan.regions=2..8 by 2'], ['breakeven.csv']],
  ['sweep', ['--vary', 'pace.scan=1, 1.5', '--vary', 'plan.regions=2, 3'], ['sweep.csv']],
  ['sensitivity', ['--all'], ['sensitivity.csv']],
  ['worth', ['--draws', '200'], ['worth.csv']],
  ['midway', ['--done', state, '--replications', '40'], ['run-sheet.html', 'run-sheet.md']],
  ['hindcast', ['--finished', finished, '--replications', '100'], ['hindcast.csv']],
  ['occupancy', ['--replications', '40'], ['occupancy.csv']],
  ['tune', ['--vary', 'rules.after=2 images, none', '--zone', '10 %'], ['setting.yaml', 'tune.csv']],
];
