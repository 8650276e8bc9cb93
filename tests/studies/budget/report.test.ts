import { said } from '../../support/said.js';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { answerOf, proposalParagraphs } from '../../../src/studies/budget/words.js';
import { budget } from '../../../src/studies/budget/budget.js';
import { loadedOf } from '../../support/run.js';

const small = readFileSync(new URL('../../support/small.yaml', import.meta.url), 'utf8');
const record = { file: 'test.yaml', sha256: '0', toolVersion: '0' };

function asked(text: string): { answer: string; proposal: string } {
  const loaded = loadedOf(text);
  const result = budget(loaded, { ...record, replications: 40 });
  return { answer: said(answerOf(result)).join(' '), proposal: proposalParagraphs(result).join(' ') };
}

describe('what a budget says of cost', () => {
  const always = small.replace(/^bookings:.*\n(?: .*\n)*/mu, '');
  const booked = `${always}bookings: { hours: 'Mo-Fr 09:00-17:00' }\n`;

  it('leaves no doubt that booked hours after the end of the work are not in it', () => {
    const { answer, proposal } = asked(booked);
    const unused = 'without the hours that are booked but come after the end of the work';
    expect(answer).toContain(unused);
    expect(proposal).toContain(unused);
  });

  it('speaks of no booked hours where nothing is booked', () => {
    const { answer, proposal } = asked(always);
    expect(`${answer} ${proposal}`).not.toContain('booked');
  });

  it('holds with the chance that was asked for, and what is ordered counts what is at hand', () => {
    const { answer, proposal } = asked(booked);
    expect(answer).toMatch(
      /What is at hand already need not be ordered\. The cost is at most .* in as many campaigns/u,
    );
    expect(proposal).toMatch(/less what is at hand already\. In as many campaigns, tips or chips, .* cost at most/u);
  });
});

describe('hours of several instruments', () => {
  it('are said to be those of each, also where half of the campaigns need no more', () => {
    const { answer } = asked(`${small}instruments: 2\n`);
    expect(answer).toMatch(/Half of the campaigns need no more than .* on each instrument\./u);
  });
});
