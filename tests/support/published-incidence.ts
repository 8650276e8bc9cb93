import { expect } from 'vitest';
import { z } from 'zod';
import type { Incidences } from '../../src/survival/aalen-johansen.js';
import { departure } from './check-values.js';

/** Cumulative incidence of two causes as the check values give it, with the variance of Greenwood's kind. */
export const incidenceBlock = z.object({
  time: z.array(z.number()),
  n_risk: z.array(z.number()),
  cif_cause1: z.array(z.number()),
  cif_cause2: z.array(z.number()),
  se_cause1_survfit_AJ_Greenwood: z.array(z.number()),
  se_cause2_survfit_AJ_Greenwood: z.array(z.number()),
  overall_survival: z.array(z.number()),
});

export function expectIncidence({ causes, survival }: Incidences, expected: z.output<typeof incidenceBlock>): void {
  const wanted = [
    { incidence: expected.cif_cause1, error: expected.se_cause1_survfit_AJ_Greenwood },
    { incidence: expected.cif_cause2, error: expected.se_cause2_survfit_AJ_Greenwood },
  ];
  causes.forEach(({ steps }, which) => {
    expect(steps.map(({ time }) => time)).toEqual(expected.time);
    expect(steps.map(({ atRisk }) => atRisk)).toEqual(expected.n_risk);
    steps.forEach(({ incidence, variance }, i) => {
      expect(Math.abs(incidence - wanted[which].incidence[i])).toBeLessThan(1e-9);
      expect(departure(Math.sqrt(variance), wanted[which].error[i])).toBeLessThan(1e-5);
    });
  });
  survival.forEach((left, i) => {
    expect(Math.abs(left - expected.overall_survival[i])).toBeLessThan(1e-9);
    expect(Math.abs(left + causes.reduce((sum, { steps }) => sum + steps[i].incidence, 0) - 1)).toBeLessThan(1e-12);
  });
}
