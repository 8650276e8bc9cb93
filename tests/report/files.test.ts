import { parse } from 'node:path';
import { describe, expect, it } from 'vitest';
import { provenanceOf } from '../../src/analysis/about.js';
import { estimateText, PLAIN, SHARE } from '../../src/wording/numbers.js';
import { MEASURES } from '../../src/execution/measures.js';
import { imagesCsv, replicationsCsv } from '../../src/report/csv.js';
import { prettyJson, summaryJson } from '../../src/report/json.js';
import { terminalText } from '../../src/studies/compare/terminal.js';
import { graphemes, markdown, plainText, uniqueLabels } from '../../src/report/text.js';
import { traceLine, tracePage, traceText } from '../../src/report/trace.js';
import { reportTexts, wholeText } from '../support/report-texts.js';
import { sampleComparison, singleSample, usualSample } from '../support/sample-summary.js';
import { nonEmpty } from '../support/non-empty.js';

const HOSTILE = '</title><script>alert(1)</script>"\' onload="x" ]](javascript:alert(1)) `|` \u001b[31m\u202e=1+1';

describe('the files of a report', () => {
  it('are complete, and the same bytes each time', async () => {
    const files = await reportTexts(usualSample());
    const charts = [
      'finish',
      'calendar',
      'sessions',
      'hours',
      'cloud',
      'tips',
      'differences',
      'quality',
      'typical',
      'late',
    ];
    expect([...files.keys()].sort()).toEqual(
      [
        ...charts.flatMap((chart) => [`charts/${chart}.svg`, `charts/${chart}.vl.json`]),
        'brief.html',
        'images.csv',
        'inputs.csv',
        'methods.md',
        'replications.csv',
        'report.html',
        'summary.json',
      ].sort(),
    );
    expect([...(await reportTexts(usualSample()))]).toEqual([...files]);
    for (const [name, text] of nonEmpty(files)) {
      if (parse(name).ext === '.svg') expect(text).not.toContain('var(--');
    }
  });

  it('leave out the differences of a single strategy', async () => {
    const files = await reportTexts(singleSample());
    expect(files.has('charts/differences.svg')).toBe(false);
    expect(files.get('report.html')).not.toContain('chart-differences');
  });

  it('carry the numbers of the summary in the tables of the page and of the proposal', async () => {
    const result = usualSample();
    const files = await reportTexts(result);
    const page = files.get('report.html') ?? '';
    const methods = files.get('methods.md') ?? '';
    expect(page).toContain('swap-or-hop 0.1.0 (5e1f0a7c39) · ');
    expect(page).toContain('Inconclusive: rests on one unmeasured value.');
    const [{ measures, name }] = result.summary.strategies;
    for (const text of [page, methods]) {
      expect(text.includes(estimateText(measures.tips, PLAIN).value)).toBe(true);
      expect(text).toContain(estimateText(measures.undetectedBadShare, SHARE).interval);
      expect(text).toContain(name);
      expect(text).toContain(result.summary.scenario.sha256);
      expect(text).toContain('swap-or-hop 0.1.0, commit 5e1f0a7c39b2d48e6f01a5c7b9d3e2f4061728ab');
      expect(text).toContain('linux, x64, Node 20.19.0');
      expect(text).toContain('this time plan is no reason to shorten a safety step');
      expect(text).toContain(result.summary.command);
    }
    for (const text of [page, files.get('inputs.csv') ?? ''])
      for (const entry of nonEmpty(result.summary.assumptions))
        expect(text.includes(entry.value) || entry.standing === 'choice').toBe(true);
  });

  it('show hostile names, titles and sources as text, never as markup', async () => {
    const files = await reportTexts(
      sampleComparison({ strategies: 3, images: 36, bookings: true, hostile: HOSTILE, decided: false }),
    );
    for (const [name, text] of nonEmpty(files)) {
      if (name.endsWith('.json')) continue;
      expect(text.includes('\u001b'), name).toBe(false);
      expect(text.includes('\u202e'), name).toBe(false);
    }
    for (const name of nonEmpty([...files.keys()].filter((each) => /\.(?:html|svg)$/.test(each)))) {
      const text = files.get(name) ?? '';
      expect(text).not.toMatch(/<script|<\/title><script|onload="/i);
      for (const tag of nonEmpty(text.match(/<[a-z][^>]*>/g) ?? [])) expect(tag).not.toMatch(/alert\(1\)<|onload=&/);
    }
    // In prose nothing stays that opens a tag, a link or code; the command stands in an indented code block.
    const prose = (files.get('methods.md') ?? '').split('\n').filter((line) => !line.startsWith('    '));
    expect(prose.join('\n')).not.toMatch(/<script|(?<!\\)\]\(|(?<!\\)`/);
    for (const name of ['images.csv', 'inputs.csv', 'replications.csv']) {
      for (const line of nonEmpty((files.get(name) ?? '').split('\r\n'))) expect(line).not.toMatch(/(?:^|,)"?[=+@]/);
    }
  });
});

describe('comma-separated values', () => {
  it('have a row for each image and strategy under a header with units', () => {
    const { summary } = usualSample();
    const lines = wholeText(imagesCsv(summary)).trimEnd().split('\r\n');
    expect(lines[0]).toBe(
      'strategy,image,sample,region,pass,quality (mean),good (share),undetected bad (share),given up (share),missing (share),attempts (mean)',
    );
    expect(lines).toHaveLength(1 + 3 * 48);
  });

  it('have a row for each replication and strategy, with every measure', () => {
    const result = usualSample();
    const lines = wholeText(replicationsCsv(result)).trimEnd().split('\r\n');
    const rows = [...result.replications];
    expect(lines).toHaveLength(1 + rows.length);
    expect(lines[0].split(',')).toHaveLength(2 + MEASURES.length + 2);
    expect(lines[0]).toContain('instrument time (s)');
    expect(lines[0]).toContain('cost (EUR)');
    expect(lines[1].split(',').slice(-1)[0]).toBe(String(rows[0].finishedAt));
  });

  it('put what a spreadsheet would compute behind an apostrophe', () => {
    const csv = wholeText(
      imagesCsv(sampleComparison({ strategies: 1, images: 2, bookings: false, hostile: '=HYPERLINK("x")' }).summary),
    );
    expect(csv).toContain(`"'=HYPERLINK(""x"") 1"`);
  });
});

describe('JSON', () => {
  it('reads back as what was written, in the same order', () => {
    const { summary } = usualSample();
    const text = wholeText(summaryJson(summary));
    expect(JSON.parse(text)).toEqual(summary);
    expect(text.endsWith('}\n')).toBe(true);
    expect(prettyJson(summary)).toBe(text);
  });

  it('puts what holds no other list or object on one line', () => {
    expect(prettyJson({ a: [{ b: 1, c: null }], d: [1, 2], e: {}, f: undefined })).toBe(
      '{\n  "a": [\n    { "b": 1, "c": null }\n  ],\n  "d": [1, 2],\n  "e": {}\n}\n',
    );
  });
});

describe('the terminal', () => {
  it('shows results, differences and the verdict within 100 columns, without colour', () => {
    for (const sample of [
      usualSample(),
      singleSample(),
      sampleComparison({ strategies: 8, images: 600, bookings: true }),
    ]) {
      const text = terminalText(sample.summary, undefined, undefined, true);
      for (const line of nonEmpty(text.split('\n'))) expect(graphemes(line).length).toBeLessThanOrEqual(100);
      expect(text).not.toContain('\u001b');
      const [headline] = sample.summary.verdict.headline;
      expect(terminalText(sample.summary)).toContain(headline);
      expect(text.replace(/\s+/g, ' ')).toContain(sample.summary.verdict.findings.at(-1));
    }
    expect(terminalText(usualSample().summary)).not.toContain('Paired');
    expect(terminalText(usualSample().summary, undefined, undefined, true)).toContain(
      'Paired differences from Swap by hand',
    );
    expect(terminalText(singleSample().summary, undefined, undefined, true)).not.toContain('Paired');
  });

  it('breaks a name that is longer than its column, and cuts nothing off it', () => {
    const { summary } = usualSample();
    const [first, ...others] = summary.strategies;
    const name = 'swap, cleaned twice by hand';
    const text = terminalText({ ...summary, strategies: [{ ...first, name }, ...others], differences: [] });
    const before = text.split('\n').map((line) => line.slice(0, 10).trim());
    expect(before.join(' ').replace(/\s+/g, ' ')).toContain(name);
    expect(text).not.toContain('…');
  });

  it('fits a terminal of 80 columns: a line for each measure, and no number parted from its unit', () => {
    for (const summary of [
      usualSample().summary,
      sampleComparison({ strategies: 8, images: 600, bookings: true }).summary,
    ]) {
      const text = terminalText(summary, undefined, 80);
      for (const line of nonEmpty(text.split('\n'))) {
        expect(graphemes(line).length).toBeLessThanOrEqual(80);
        expect(line).not.toMatch(/^(?:h|min|s|nm|%|EUR)\b/);
      }
      expect(text).toContain('  undetected bad  ');
    }
  });

  it('lets no control character of a name through, and styles only as told', () => {
    const { summary } = sampleComparison({
      strategies: 2,
      images: 36,
      bookings: false,
      hostile: HOSTILE,
      decided: false,
    });
    expect(terminalText(summary)).not.toMatch(/[^\P{Cc}\n]|\u202e/u);
    const mark = (text: string): string => `<${text}>`;
    const styled = terminalText(summary, { strong: mark, quiet: mark, warning: mark });
    expect(styled).toContain('<Inconclusive: rests on one unmeasured value.>');
  });
});

describe('a trace', () => {
  const events = [
    { time: 0, clock: 'Mo 09:00:00', instrument: 0, what: 'start', detail: 'set up' },
    { time: 12_345.6789, clock: 'Mo 12:25:45', instrument: 0, what: 'breaks', detail: `tip ${HOSTILE}` },
  ];

  it('is a table whose columns line up, and lines of JSON', () => {
    const lines = traceText(events).trimEnd().split('\n');
    expect(lines).toHaveLength(3);
    expect(lines[1].indexOf('Mo 09')).toBe(lines[2].indexOf('Mo 12'));
    expect(lines[2]).toContain('12345.679');
    expect(JSON.parse(traceLine(events[1]))).toEqual(events[1]);
    expect(traceLine(events[1]).indexOf('\n')).toBe(traceLine(events[1]).length - 1);
  });

  it('is a page with its timeline and all events, without markup from names', async () => {
    const [shown] = usualSample().summary.shown;
    const page = await tracePage(shown.timelines[0], events, {
      title: HOSTILE,
      strategy: 'Swap by hand',
      replication: 117,
      seed: '1',
      ...provenanceOf({
        file: 'oxide-fields.yaml',
        sha256: '9f2c1e5a',
        toolVersion: '0.1.0',
        commit: '5e1f0a7c',
        command: 'swap-or-hop trace oxide-fields.yaml --strategy 1 --replication 117',
      }),
    });
    for (const text of [
      'oxide-fields.yaml, SHA-256 9f2c1e5a',
      'swap-or-hop 0.1.0, commit 5e1f0a7c',
      '--replication 117',
    ])
      expect(page).toContain(text);
    expect(page).toContain('role="img"');
    expect(page).toContain('Mo 12:25:45');
    expect(page).not.toMatch(/<script|onload="/);
  });
});

describe('user text', () => {
  it('loses control and bidirectional characters and broken halves', () => {
    expect(plainText('a\u0000b\n\u202ec\ud800')).toBe('a b c\ufffd');
  });

  it('is no markup in Markdown', () => {
    expect(markdown('# a_b* [x](y) <i> https://e.org www.e.org | `c` $m$')).toBe(
      '\\# a\\_b\\* \\[x\\](y) &lt;i&gt; https\\://e.org www\\.e.org \\| \\`c\\` \\$m\\$',
    );
    expect(markdown('1. no list')).toBe('1\\. no list');
    expect(markdown('- none')).toBe('\\- none');
  });

  it('shortened never makes two names one', () => {
    const labels = uniqueLabels([`${'x'.repeat(40)}a`, `${'x'.repeat(40)}b`, 'y'], 20);
    expect(new Set(labels).size).toBe(3);
    expect(nonEmpty(labels).every((label) => label.length <= 20)).toBe(true);
  });
});
