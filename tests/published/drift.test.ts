import { expect, it } from 'vitest';
import { z } from 'zod';
import { SECOND } from '../../src/kernel/clock.js';
import { Drift } from '../../src/probe/drift.js';
import { departure, publishedCase } from '../support/check-values.js';

// Closed form τ·ln(v₀/v); that drift is given as a rate after a settling time follows ISO 11039. The decay is assumed.
it('drift has come down to a rate after the published wait, to the microsecond', () => {
  const { inputs, expected } = publishedCase(
    'drift-settle',
    z.object({ v0_nm_s: z.number(), vlim_nm_s: z.number(), tau_min: z.number() }),
    z.object({ wait_min: z.number() }),
  );
  const decay = inputs.tau_min * 60;
  const drift = new Drift({ decay: { handling: decay, move: decay }, steady: 0 });
  drift.disturb('handling', inputs.v0_nm_s, 0);
  const minutes = drift.waitUntil(inputs.vlim_nm_s, 0) / (60 * SECOND);
  expect(departure(minutes, expected.wait_min)).toBeLessThan(1e-9);
});
