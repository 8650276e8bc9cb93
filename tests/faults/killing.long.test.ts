import { describe, expect, it } from 'vitest';
import { inEmptyFolder } from '../support/command.js';
import { DEEDS, Scene } from './killing.js';

/** Few, as every try takes seconds; the long form is `npm run faults`, what it came to in RECORD.md. */
const MOMENTS = [
  ['SIGKILL', { of: 'writing', after: 5 }],
  ['SIGTERM', { of: 'writing', after: 0 }],
] as const;

describe.each(DEEDS.filter(({ name }) => name === 'fit --into').map((deed) => [deed.name, deed] as const))(
  '%s, killed while it writes',
  (_, deed) => {
    it('leaves the old or the new, whole, and the next run clears up', async () => {
      await inEmptyFolder(async (folder) => {
        const scene = new Scene(deed, folder);
        await scene.prepare();
        for (const [signal, moment] of MOMENTS)
          expect(await scene.kill(signal, moment)).toMatch(/^(?:old|new|set aside)/);
      });
    });
  },
);
