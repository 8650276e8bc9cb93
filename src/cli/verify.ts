import { mkdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { makerText, verificationText } from '../report/verification.js';
import type { Maker } from '../analysis/about.js';
import { list } from '../studies/options.js';
import { again } from './again.js';
import { EXIT, Failure, StoppedByHand, systemCode } from '../scenario/failure.js';
import { type Command, command } from './command.js';
import { leftoversBeside, neighbourOf } from '../execution/machine/neighbours.js';
import { compareReports } from './verify/compare-reports.js';
import { gatherInputs } from './verify/inputs.js';
import { argumentsAgain } from './verify/line.js';
import { readSummary } from './verify/record.js';
import { makerHere } from './version.js';

type Run = (argv: readonly string[]) => Promise<number>;

/** @param run the command line itself, which makes the study again */
export function verifyCommand(run: Run): Command {
  return command({
    does: 'Make the study of a summary again, and show whether it is the same to the byte',
    takes: { form: '<file>', help: 'The summary.json of a report' },
    options: {
      input: list('A file that the study read (scenario, log, state), where it lies elsewhere; for each such file'),
    },
    run: async ({ input }, { file, console, isQuiet }) => {
      const { text, recorded } = readSummary(file);
      const other = makerText(recorded.maker, makerHere());
      if (other !== '') console.result(other);
      const folder = makeWorkFolder();
      try {
        const copies = gatherInputs(recorded.inputs, [dirname(file), '.'], input, folder);
        const report = join(folder, 'report');
        const words = argumentsAgain(recorded.command, copies, report);
        await makeAgain(run, isQuiet ? [...words, '--quiet'] : words, recorded.maker);
        const found = compareReports(file, text, report);
        console.result(verificationText(found));
        if (!found.isSame || found.others.different.length > 0)
          throw new Failure(`${file} is not what its command line gives here: ${recorded.command}`, EXIT.failed);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  });
}

/** A folder that nobody else may look into. One that a killed run left, which cannot clear up after itself, goes. */
function makeWorkFolder(): string {
  const place = join(tmpdir(), 'swap-or-hop-verify');
  for (const { path } of leftoversBeside(place)) {
    try {
      rmSync(path, { recursive: true, force: true });
    } catch (error) {
      // It is somebody else's, who clears it up.
      if (systemCode(error) === undefined) throw error;
    }
  }
  const folder = neighbourOf(place, 'writing');
  mkdirSync(folder, { mode: 0o700 });
  return folder;
}

async function makeAgain(run: Run, words: readonly string[], maker: Maker): Promise<void> {
  const complaints: string[] = [];
  const code = await again.run({ maker, complaints }, () => run(words));
  if (code === EXIT.interrupted || code === EXIT.terminated) throw new StoppedByHand('nothing was compared', code);
  if (code !== EXIT.ok) throw new Failure(['it cannot be made again here:', ...complaints]);
}
