import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { expect, it } from 'vitest';
import { root } from '../support/command.js';

/** What people of the field stumble over; shared/docs/reading.md has a glossary of what is said. */
const NOT_SAID: readonly RegExp[] = [
  /\bluck\b/iu,
  /\bnot[ -]knowing\b/iu,
  /what is not known/iu,
  /known only so far/iu,
  /not told\b|told apart|told from|cannot be told/iu,
  /\bturns if\b|turns the verdict|verdict turns|could turn\b/iu,
  /ends of (?:its |their )?ranges?\b/iu,
  /not decided by/iu,
  /assumption register|in the register/iu,
  /silent[- ]bad/iu,
  /\b(?:each|every|kept|one|a|the) takes?\b(?! on| up| off| over| from| in)(?= of| is| was|[,.;)])/iu,
  /\btips? goes\b|tips go\b|why tips went/iu,
  /\btip is fouled|tips blunt\b|clears fouling/iu,
  /tip lives\b|of their lives\b|long lives|short lives|the lives\b/iu,
  /law is (?:best|taken)|by the law\b|choice of law|no law\b|law taken/iu,
  /made logs/iu,
  /chance (?:to be|of being) finished|through by/iu,
  /\bnine in ten\b|\b9 in 10\b/iu,
  /it comes to [\d.]+ \S+ less/iu,
  /for the reader to weigh|less weighty|every turn\b/iu,
  /\bhangs? on\b|\bweighs? most\b/iu,
  /either way|more than one valley/iu,
  /\bin pictures\b|to run it again/iu,
  /\bmade (?:from|by|on)\b: /iu,
  /take along|I have doubts|stands still|ask the engine|what was hidden/iu,
  /\bafternoon\b/iu,
  /ways? of working/iu,
  /\b(?:mean|median|tip) (?:life|lives)\b/iu,
  /\bupright/iu,
  /leads nowhere|stands in line|goes behind the command/iu,
  /(?:was|is|were) stopped by hand/iu,
  /” less “/u,
];

/** Texts of the program that read what people write, or name what others have named so. */
const OWN_READING = ['src/studies/fit/endings.ts', 'src/studies/fit/heads.ts', 'src/studies/midway/state-words.ts'];

const DOCUMENTS = [
  'README.md',
  'CHANGELOG.md',
  'DEVELOPERS.md',
  'SECURITY.md',
  'reports/README.md',
  'shared/docs/commands.md',
  'shared/docs/reading.md',
  'shared/docs/scenario.md',
];

function found(text: string): string | null {
  for (const phrase of NOT_SAID) {
    const match = phrase.exec(text);
    if (match !== null) return text.slice(Math.max(0, match.index - 40), match.index + match[0].length + 40).trim();
  }
  return null;
}

/** Every text that a source file holds, but for what it imports. */
function textsIn(file: string): readonly string[] {
  const source = ts.createSourceFile(file, readFileSync(join(root, file), 'utf8'), ts.ScriptTarget.Latest, true);
  const texts: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
    if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node) || ts.isJsxText(node))
      texts.push(node.text);
    if (ts.isTemplateExpression(node))
      texts.push([node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('…'));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return texts;
}

it('no text of the program has a phrase that people of the field stumble over', () => {
  const files = execFileSync('git', ['ls-files', 'src'], { cwd: root, encoding: 'utf8' })
    .split('\n')
    .filter((file) => /\.tsx?$/u.test(file) && !OWN_READING.includes(file));
  expect(files.length).toBeGreaterThan(300);
  const stumbles = files.flatMap((file) =>
    textsIn(file).flatMap((text) => {
      const phrase = found(text.replace(/\s+/gu, ' '));
      return phrase === null ? [] : [`${file}: ${phrase}`];
    }),
  );
  expect(stumbles).toEqual([]);
});

it.each(DOCUMENTS)('%s has none of these phrases', (file) => {
  expect(found(readFileSync(join(root, file), 'utf8').replace(/\s+/gu, ' '))).toBeNull();
});
