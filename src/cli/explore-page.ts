import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { provenanceOf } from '../analysis/about.js';
import { explorePage } from '../explore/shell.js';
import type { TextFile } from '../studies/study.js';
import { scriptsOf } from './page-scripts.js';
import { recordedHere } from './version.js';

const EXAMPLE = 'ambient-islands.yaml';

/** The page for a scenario; for null one that begins with questions. */
export function explorePageOf(read: Pick<TextFile, 'file' | 'text'> | null): string {
  const scenario = read === null ? null : { file: basename(read.file), text: read.text };
  const example = readFileSync(fileURLToPath(new URL(`../../scenarios/${EXAMPLE}`, import.meta.url)), 'utf8');
  const { tool } = provenanceOf({ file: '', sha256: '', ...recordedHere() });
  return explorePage({ scenario, example: { file: EXAMPLE, text: example } }, tool, scriptsOf('explore'));
}
