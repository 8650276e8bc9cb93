import { resolve } from 'node:path';
import { numberText } from '../report/format.js';
import { recalled } from '../study/work/recalled.js';
import type { Work } from '../study/work/work.js';
import { Journal } from './journal.js';
import { journalOf } from './neighbours.js';
import type { OpenedStudy } from './study.js';

/** Runs a study to its end, going on from what an earlier run of it did before it was killed. */
export async function pursue<Result>(
  { console, folder, crew, progress }: Pick<OpenedStudy, 'console' | 'folder' | 'crew' | 'progress'>,
  work: Work<Result>,
): Promise<Result> {
  const journal = await Journal.open(journalOf(resolve(folder)));
  let isThrough = false;
  try {
    const result = await crew.carryOut(recalled(work, journal));
    isThrough = !crew.isStopped;
    return result;
  } finally {
    progress.stop();
    // Where the report comes next, it is hardly worth the time.
    if (!isThrough) journal.flush();
    if (journal.takenOver > 0)
      console.note(
        `took over ${numberText(journal.takenOver)} campaigns from an earlier run that did not come to its end`,
      );
  }
}
