import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { nonEmpty } from '../support/non-empty.js';

/** In how many files of `src` one value of the scenario may be named. */
const MOST_FILES = 10;

/** What holds others and is no value itself; most of what there is stands below one of these. */
const HOLDERS = new Set([
  ...['plan', 'passes', 'tips', 'workflows', 'hop', 'swap', 'steps'],
  ...['hazards', 'noticing', 'check', 'rules', 'bookings', 'pace'],
]);

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** The compiler's own knowledge of what refers to what. */
function references(): ts.LanguageService {
  const parsed = ts.getParsedCommandLineOfConfigFile(`${ROOT}tsconfig.json`, undefined, {
    ...ts.sys,
    onUnRecoverableConfigFileDiagnostic: ({ messageText }) => {
      throw new Error(ts.flattenDiagnosticMessageText(messageText, ' '));
    },
  });
  const { fileNames = [], options = {} } = parsed ?? {};
  const files = fileNames.filter((file) => file.includes('/src/'));
  return ts.createLanguageService({
    getScriptFileNames: () => files,
    getScriptVersion: () => '1',
    getScriptSnapshot: (file) => {
      const text = ts.sys.readFile(file);
      return text === undefined ? undefined : ts.ScriptSnapshot.fromString(text);
    },
    getCurrentDirectory: () => ROOT,
    getCompilationSettings: () => options,
    getDefaultLibFileName: (own) => ts.getDefaultLibFilePath(own),
    fileExists: (file) => ts.sys.fileExists(file),
    readFile: (file) => ts.sys.readFile(file),
  });
}

/** Entries of the maps that the schema declares, of every depth: where each is named. */
function declaredIn(source: ts.SourceFile): readonly ts.PropertyName[] {
  const found: ts.PropertyName[] = [];
  const visit = (node: ts.Node): void => {
    const isMap =
      ts.isObjectLiteralExpression(node) &&
      ((ts.isCallExpression(node.parent) && node.parent.expression.getText().endsWith('strictObject')) ||
        (ts.isVariableDeclaration(node.parent) && node.parent.type === undefined));
    if (isMap) {
      for (const entry of node.properties)
        if (ts.isPropertyAssignment(entry) || ts.isShorthandPropertyAssignment(entry)) found.push(entry.name);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

describe('a value of the scenario', () => {
  it(`is named in at most ${MOST_FILES} files`, () => {
    const service = references();
    const sources = (service.getProgram()?.getSourceFiles() ?? []).filter(({ fileName }) =>
      fileName.includes('/src/scenario/schema/'),
    );
    const named = nonEmpty(sources).flatMap((source) =>
      declaredIn(source).map((name) => {
        const places = service.findReferences(source.fileName, name.getStart()) ?? [];
        const files = new Set(places.flatMap(({ references: each }) => each.map(({ fileName }) => fileName)));
        return { name: name.getText(), files: files.size };
      }),
    );
    expect(named.length).toBeGreaterThan(100);
    expect(named.filter(({ name, files }) => files > MOST_FILES && !HOLDERS.has(name))).toEqual([]);
    // The count is no accident: what holds everything is named in many.
    expect(named.find(({ name }) => name === 'plan')?.files).toBeGreaterThan(MOST_FILES);
  });
});
