import { describe, expect, it } from 'vitest';
import { answerBox, answerText } from '../../src/report/answer.js';
import type { Styles } from '../../src/report/terminal.js';
import { recordOf } from '../../src/study/about.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const record = recordOf('swap-or-hop test', loadedFrom(KNOWN_TEXT), {
  file: 'known.yaml',
  sha256: '0',
  toolVersion: '0',
  seed: 'a\u001b[31mb',
});
const STYLES: Styles = {
  strong: (text) => `<strong>${text}</strong>`,
  quiet: (text) => text,
  warning: (text) => `<warning>${text}</warning>`,
};
const PLAIN: Styles = { strong: (text) => text, quiet: (text) => text, warning: (text) => text };
const LONG =
  'where every one of many words is needed to say what came out of the study and how sure that is, said at length';

function text(decided: boolean, styles: Styles, columns?: number): string {
  return answerText(
    {
      record,
      run: '8000 campaigns',
      tables: [
        {
          title: 'settings',
          table: {
            columns: [{ label: 'setting' }, { label: 'time', numeric: true }],
            rows: [['a setting whose name is long', '1.5 h (1.2 to 1.8)']],
          },
        },
      ],
      warnings: ['mind the gap'],
      answer: { decided, sentences: ['The first is better.', LONG] },
    },
    styles,
    columns,
  );
}

describe('the answer in a terminal', () => {
  it('stands last, its first sentence before the others', () => {
    const lines = text(true, PLAIN).trimEnd().split('\n');
    const first = lines.indexOf('The first is better.');
    expect(lines.slice(first + 1).join(' ')).toBe(LONG);
    expect(lines.indexOf('Warning: mind the gap')).toBeLessThan(first);
  });

  it('begins in the style of a warning where it leaves something open', () => {
    expect(text(true, STYLES)).toContain('<strong>The first is better.</strong>');
    expect(text(false, STYLES)).toContain('<warning>The first is better.</warning>');
  });

  it.each([undefined, 100, 60, 32])('has no line wider than a terminal of %s columns, or than 100', (columns) => {
    for (const line of text(true, PLAIN, columns).split('\n')) expect(line.length).toBeLessThanOrEqual(columns ?? 100);
  });

  it('puts every cell on a line of its own, with its label, where the table does not fit', () => {
    expect(text(true, PLAIN, 100)).not.toContain('time: 1.5 h');
    expect(text(true, PLAIN, 32)).toContain('a setting whose name is long\n  time: 1.5 h (1.2 to 1.8)');
  });

  it('says the seed without what would steer the terminal', () => {
    expect(text(true, PLAIN)).not.toContain('\u001b');
  });
});

describe('the answer in a page', () => {
  it('shows what a scenario says as text, not as marks of the page', () => {
    const box = answerBox({ decided: true, sentences: ['Use <b>hop</b> & go.'] }, ['<i>mind</i>']);
    expect(box).toContain('&lt;b&gt;hop&lt;/b&gt; &amp; go.');
    expect(box).not.toContain('<i>');
  });

  it('looks open where it leaves something open', () => {
    expect(answerBox({ decided: false, sentences: ['x'] }, [])).toContain('class="verdict open"');
    expect(answerBox({ decided: true, sentences: ['x'] }, [])).not.toContain('open');
  });
});
