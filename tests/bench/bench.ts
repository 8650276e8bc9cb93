import { writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { inEmptyFolder } from '../support/command.js';
import { baselinesIn } from './baselines.js';
import { costByPlan, costOfComparing } from './growth.js';
import { beside } from './job.js';
import { surroundings } from './machine.js';
import { comparePlainCase } from './plain-case.js';
import { profilePlainCase } from './profile.js';
import { recordOf } from './record.js';
import { IDLE, resultsText } from './results.js';
import { measureScenarios } from './scenarios.js';
import { costOfStudies, gainOfThreads } from './studies.js';

/** Measures everything, one thing after another, and writes RESULTS.md and baselines.json. */
export async function bench(long: boolean): Promise<void> {
  const around = surroundings();
  if (around.load > IDLE) tell(`other processes want ${around.load.toFixed(1)} cores: expect a wide spread`);
  await inEmptyFolder(async (folder) => {
    const all = baselinesIn(folder);
    const baselines = all.filter((one) => 'run' in one);
    const lacking = all.filter((one) => 'lacks' in one);
    for (const { name, lacks } of lacking) tell(`${name} is left out. ${lacks}`);
    const plain = comparePlainCase(baselines, tell);
    if (lacking.length === 0) await write('baselines.json', JSON.stringify(recordOf(plain, baselines)));
    tell('plain case, under the profiler');
    const text = resultsText({
      ...{ surroundings: around, baselines, lacking, plain },
      profile: profilePlainCase(folder),
      scenarios: measureScenarios(tell),
      studies: costOfStudies(folder, tell),
      byPlan: costByPlan(tell),
      comparing: costOfComparing(folder, long, tell),
      threads: gainOfThreads(folder, tell),
    });
    await write('RESULTS.md', text);
  });
}

function tell(what: string): void {
  process.stderr.write(`${what}\n`);
}

async function write(file: string, text: string): Promise<void> {
  const target = beside(file);
  writeFileSync(target, await format(text, { ...(await resolveConfig(target)), filepath: target }));
}
