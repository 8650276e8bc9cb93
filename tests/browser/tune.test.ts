import { tuneReport } from '../../src/studies/tune/report.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';
import { sampleTunings } from '../support/sample-tunings.js';
import { textsOf } from '../support/report-texts.js';

const command = "swap-or-hop tune plain.yaml --vary 'rules.after=2..8 images by 2, none'";

const pages = openPages(async () => {
  const written: Record<string, string> = {};
  for (const [name, result] of Object.entries(sampleTunings()))
    written[name] = (await textsOf(tuneReport, { ...result, command })).get('report.html') ?? '';
  return written;
});

checkPage(pages, 'one value', 3);
checkPage(pages, 'two values', 2);
checkPage(pages, 'searched', 2);
// Without a winner nothing is lost: the picture of losses is none.
checkPage(pages, 'no winner', 2);
checkAccess(pages, 'one value', 'light');
checkAccess(pages, 'two values', 'dark');
checkAccess(pages, 'no winner', 'light');
