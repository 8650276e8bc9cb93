import { lineJson } from '../../src/report/json.js';

/**
 * Texts made to act where they are shown: markup and script, codes that a terminal obeys (ISO 6429; OSC 8 links), formulas of
 * spreadsheets (OWASP, "CSV Injection"), signs that turn the order of a line (CVE-2021-42574), parts of paths, and names
 * that mean something to the language or to a system.
 */
export const HOSTILE: readonly string[] = [
  '</title><script>window.ran = 1</script><img src=x onerror="window.ran = 1">',
  "\"><svg/onload=window.ran=1>' onmouseover='window.ran=1",
  '<!--<script>window.ran=1//--></style><style>*{background:url(http://example.org/a)}',
  '[click](javascript:window.ran=1) ![x](http://example.org/x.png) <http://example.org> `code`',
  '\u001b]8;;http://example.org\u001b\\link\u001b]8;;\u001b\\ \u001b[2J\u001b[31mred\u009b31m\u0090q\u009c\u0007\u0008',
  "=cmd|'/C calc'!A1",
  '+1+1',
  '-1+1',
  '@SUM(1;1)',
  '\t=1+1',
  '\r=1+1',
  'name;=1+1',
  'user\u202e \u2066// root\u2069 \u2066gpj.exe\u200f\u061c',
  '../../etc/passwd',
  'C:\\Windows\\System32',
  'CON',
  '__proto__',
  'constructor',
  'line\u2028end\u2029of\u0085line',
  '{{7*7}} ${7*7} %s %n',
];

export const ALL = HOSTILE.join(' ');

/** A small sound scenario whose every free text is hostile, as JSON, which is YAML too and can say any sign. */
export function hostileScenario(text = ALL): string {
  const short = text.slice(0, 1900);
  return lineJson({
    title: short,
    about: short,
    seed: text.slice(0, 190),
    plan: { regions: 2, passes: [{ name: 'islands', tip: 'sharp', size: '1 um', lines: 64 }] },
    tips: {
      sharp: {
        hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit: 0.2 } }],
        price: '30 EUR',
      },
    },
    workflows: { hop: { chip: { sites: { sharp: 20 } } } },
    strategies: [
      { name: 'swap by hand', workflow: 'swap' },
      { name: 'hop', workflow: 'hop' },
    ],
    sources: Object.fromEntries(
      ['plan', 'tips', 'workflows', 'noticing', 'rules', 'costs'].map((part) => [part, short]),
    ),
  });
}

const cell = (text: string) => `"${text.replaceAll('"', '""')}"`;

/** A table of drift whose heads, disturbances, kinds and notes are hostile where it lets them; displacements go the wrong way. */
export function hostileDrift(): string {
  const heads = ['disturbance', 'kind', 'time [s]', 'displacement [nm]', ...HOSTILE.map(cell)];
  const rows = HOSTILE.flatMap((word) =>
    [0, 60, 200].map((time) =>
      [cell(word), 'exchange', String(time), String(-time), ...HOSTILE.map(() => '')].join(','),
    ),
  );
  return [heads.join(','), ...rows, `x,${cell(ALL)},3,4`].join('\r\n');
}

/** A log whose heads, tips, kinds, causes and notes are hostile where a log lets them. */
export function hostileLog(): string {
  const heads = ['tip', 'kind', 'images', 'ended', ...HOSTILE.map(cell)];
  const rows = HOSTILE.flatMap((word, i) =>
    [4, 9, 17].map((images) =>
      [
        cell(`${word} ${String(images)}`),
        cell(HOSTILE[i % 5] ?? ''),
        String(images + i),
        'broken',
        ...HOSTILE.map(() => ''),
      ].join(','),
    ),
  );
  return [heads.join(','), ...rows, `x,y,3,${cell(ALL)}`].join('\r\n');
}
