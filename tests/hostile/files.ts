import { parse as parseCsv } from 'csv-parse/sync';
import { beforeAll, expect, it } from 'vitest';
import { nonEmpty, perhapsNone } from '../support/non-empty.js';

/** What acts on a terminal or on the order of a line. Ends of lines and tabs only lay out. */
export const ACTING = /(?![\n\r\t])\p{Cc}|[\p{Bidi_Control}\p{Zl}\p{Zp}]/u;

type Named = readonly [name: string, content: string];

/** Tests that nothing in files that were made of hostile words acts on whatever shows them. */
export function harmlessFiles(make: () => Promise<readonly Named[]>): void {
  let files: readonly Named[] = [];
  const ending = (pattern: RegExp) => files.filter(([name]) => pattern.test(name));

  beforeAll(async () => {
    files = await make();
  });

  it('has no sign in any file that acts on what shows it', () => {
    expect(files.length).toBeGreaterThan(0);
    for (const [name, content] of nonEmpty(files)) expect(ACTING.exec(content), name).toBeNull();
  });

  it('has no script, no handler and no address to fetch from in any tag of a page or picture', () => {
    for (const [name, content] of nonEmpty(ending(/\.(?:html|svg)$/u))) {
      expect(content, name).not.toMatch(/<(?:script|iframe|object|embed|img|link|base|form)\b/iu);
      for (const tag of nonEmpty(content.match(/<[a-z][^>]*>/giu) ?? [])) {
        const attributes = tag.replace(/"[^"]*"/gu, '""');
        expect(attributes, name).not.toMatch(/\son[a-z]+=|javascript:/iu);
        // The page on which the plan is changed lies beside a report, and is opened where somebody wants it.
        expect(tag, name).not.toMatch(/\s(?:src|href|action|xlink:href)="(?!#|explore\.html")/iu);
      }
    }
  });

  it('has no cell in a table that a spreadsheet takes for a formula', () => {
    for (const [name, content] of perhapsNone(ending(/\.csv$/u)))
      for (const cell of perhapsNone(parseCsv(content).flat())) expect(cell, name).toMatch(/^(?![=+@\t\r-])|^-?\d/u);
  });

  it('has prose without markup, links and code of others', () => {
    for (const [name, content] of perhapsNone(ending(/\.md$/u))) {
      const prose = content.split('\n').filter((line) => !line.startsWith('    '));
      // Names of files of the report itself stand in code.
      const others = prose.join('\n').replace(/`(?:[a-z-]+\.[a-z]+|charts\/)`/gu, '');
      expect(others, name).not.toMatch(/<[a-z!/]|(?<!\\)\]\(|(?<!\\)`|https?:\/\//iu);
    }
  });

  it('has data that read back as they were', () => {
    for (const [name, content] of nonEmpty(ending(/\.json$/u)))
      expect(() => {
        JSON.parse(content);
      }, name).not.toThrow();
  });
}
