import { describe, expect, it } from 'vitest';
import type { Answer } from '../../src/analysis/answer.js';
import { answerBox, answerText, findingsSection, MOST_LINES } from '../../src/report/answer.js';
import type { Styles } from '../../src/report/styles.js';
import { nonEmpty } from '../support/non-empty.js';

const STYLES: Styles = {
  strong: (text) => `<strong>${text}</strong>`,
  quiet: (text) => text,
  warning: (text) => `<warning>${text}</warning>`,
};
const PLAIN: Styles = { strong: (text) => text, quiet: (text) => text, warning: (text) => text };
const LONG =
  'where every one of many words is needed to say what came out of the study and how sure that is, said at length';

function answer(more: Partial<Answer> = {}): Answer {
  return { decided: true, headline: ['The first is better.'], remarks: [LONG], findings: ['It was found.'], ...more };
}

interface Asked {
  readonly styles?: Styles;
  readonly columns?: number | undefined;
  readonly isVerbose?: boolean;
  readonly decided?: boolean;
  /** Of each of the tables. */
  readonly rows?: readonly number[];
  /** The first table whose rows have an order of their own. */
  readonly alongFrom?: number;
}

function text({ styles = PLAIN, columns, isVerbose, decided = true, rows = [1], alongFrom = 1 }: Asked = {}): string {
  return answerText(
    {
      title: 'A plan',
      about: '12 images, 8000 campaigns, seed a\u001b[31mb',
      tables: rows.map((count, number) => ({
        title: `settings ${number + 1}`,
        table: {
          columns: [{ label: 'setting' }, { label: 'time', numeric: true }],
          rows: Array.from({ length: count }, (_, row) => [
            `a setting whose name is long ${row + 1}`,
            '1.5 h (1.2 to 1.8)',
          ]),
        },
        ...(number < alongFrom ? {} : { isAlong: true as const }),
      })),
      warnings: ['mind the gap'],
      answer: answer({ decided }),
    },
    styles,
    columns,
    isVerbose,
  );
}

describe('the answer in a terminal', () => {
  it('stands first, before tables, remarks and warnings; findings only where all is asked for', () => {
    const lines = text().split('\n');
    const places = ['The first is better.', 'settings 1', LONG.slice(0, 40), 'Warning: mind the gap'].map((start) =>
      lines.findIndex((line) => line.startsWith(start)),
    );
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(places[0]).toBe(3);
    expect(text()).not.toContain('It was found.');
    expect(text({ isVerbose: true })).toContain('It was found.');
  });

  it('begins in the style of a warning where it leaves something open', () => {
    expect(text({ styles: STYLES })).toContain('<strong>The first is better.</strong>');
    expect(text({ styles: STYLES, decided: false })).toContain('<warning>The first is better.</warning>');
  });

  it.each([[[3]], [[40]], [[6, 6, 6]], [[40, 40]], [[12, 9]], [[1, 1, 1, 1, 1, 1]]])(
    'has at most 25 lines with tables of %j rows, all of them where all is asked for',
    (rows) => {
      expect(text({ rows }).trimEnd().split('\n').length).toBeLessThanOrEqual(MOST_LINES);
      const whole = text({ rows, isVerbose: true });
      expect(whole.match(/name is long/gu)).toHaveLength(rows.reduce((sum, count) => sum + count, 0));
      expect(whole).not.toContain('--verbose');
    },
  );

  it('says how many rows of a table it leaves out, and names tables that it leaves out', () => {
    expect(text({ rows: [40] })).toMatch(/settings 1; \d\d more rows with --verbose\n/u);
    expect(text({ rows: [9, 9, 9] })).toContain('With --verbose also: settings 2 and settings 3');
  });

  it('shows of rows in an order of their own the first, the last and some between', () => {
    const shown = text({ rows: [1, 40] });
    expect(shown).toMatch(/settings 2; \d\d more rows/u);
    expect(shown).toContain('long 40 ');
    expect(shown).not.toContain('long 2 ');
  });

  it('shows the first row where there is room for one only', () => {
    const shown = text({ rows: [40], alongFrom: 0, columns: 20 });
    expect(shown).toContain('39 more');
    expect(shown).toMatch(/long 1\n/u);
    expect(shown).not.toMatch(/long [2-9]/u);
  });

  it.each([undefined, 100, 60, 32])('has no line wider than a terminal of %s columns, or than 100', (columns) => {
    for (const line of nonEmpty(text({ columns }).split('\n'))) expect(line.length).toBeLessThanOrEqual(columns ?? 100);
  });

  it('puts every cell on a line of its own, with its label, where the table does not fit', () => {
    expect(text({ columns: 100 })).not.toContain('time: 1.5 h');
    expect(text({ columns: 32 })).toContain('a setting whose name is long 1\n  time: 1.5 h (1.2 to 1.8)');
  });

  it('says the seed without what would steer the terminal', () => {
    expect(text()).not.toContain('\u001b');
  });
});

describe('the answer in a page', () => {
  it('shows what a scenario says as text, not as marks of the page', () => {
    const box = answerBox(answer({ headline: ['Use <b>hop</b> & go.'] }), ['<i>mind</i>']);
    expect(box).toContain('&lt;b&gt;hop&lt;/b&gt; &amp; go.');
    expect(box).not.toContain('<i>');
  });

  it('looks open where it leaves something open', () => {
    expect(answerBox(answer({ decided: false }), [])).toContain('class="verdict open"');
    expect(answerBox(answer(), [])).not.toContain('open');
  });

  it('holds remarks and findings in a section of their own, and none where there are neither', () => {
    expect(findingsSection(answer({ findings: ['1 < 2'] }))).toContain('<p>1 &lt; 2</p>');
    expect(findingsSection(answer({ findings: [], remarks: [] }))).toBe('');
  });
});
