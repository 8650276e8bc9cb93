import { describe, expect, it } from 'vitest';
import { isDate, latestDate } from '../../../src/studies/fit/dates.js';
import { readEnding } from '../../../src/studies/fit/endings.js';

describe('a date', () => {
  it.each(['2024-02-29', '2000-02-29', '2026-12-31', '2026-04-30T08:15', '2026-01-01 noon'])('is one: %s', (text) => {
    expect(isDate(text)).toBe(true);
  });

  it.each(['2023-02-29', '1900-02-29', '2026-04-31', '2026-13-01', '2026-00-10', '2026-01-00', '14.3.2026', ''])(
    'is none: %s',
    (text) => {
      expect(isDate(text)).toBe(false);
    },
  );

  it('is the latest of those that are written so, without its time of day', () => {
    expect(latestDate(['2026-03-01', '1/4/2026', '2026-03-14 17:00', '2026-02-30'])).toBe('2026-03-14');
    expect(latestDate(['yesterday'])).toBeNull();
  });
});

describe('what ended a tip', () => {
  it('is told where another word says it, and not where it is called by its own name', () => {
    expect(readEnding('breakage')).toMatchObject({ ok: true, ending: { cause: 'breakage' }, meant: null });
    expect(readEnding('Worn-Out.')).toMatchObject({ ok: true, ending: { cause: 'worn-out' }, meant: null });
    expect(readEnding('broken')).toMatchObject({ ok: true, ending: { cause: 'breakage' }, meant: 'breakage' });
  });

  it('is what the log was said to mean by it, before what it would mean by itself', () => {
    const words = new Map([['kaputt', 'breakage']]);
    expect(readEnding('KAPUTT', words)).toMatchObject({ ok: true, ending: { cause: 'breakage' }, meant: 'breakage' });
    expect(readEnding('kaputt').ok).toBe(false);
  });
});
