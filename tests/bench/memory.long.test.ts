import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { plainOf } from './growth.js';
import { use } from './job.js';
import { inEmptyFolder } from '../support/command.js';

/** Bytes that the process and all its threads hold at a time, as the system counts them. */
const MOST = 1e9;

it('a plan of a hundred thousand images is compared, reported and compared again within a gigabyte', async () => {
  await inEmptyFolder((folder) => {
    const file = join(folder, 'plan.yaml');
    writeFileSync(file, plainOf(100_000));
    const line = ['compare', file, '--threads', '2', '--out', join(folder, 'report')];
    expect(use([...line, '--replications', '10']).peak).toBeLessThan(MOST);
    // The report that is there already is clearly different from other things by its head.
    expect(use([...line, '--replications', '2']).peak).toBeLessThan(MOST);
    return Promise.resolve();
  });
}, 180_000);
