import { basename } from 'node:path';
import { GREATEST_LOG } from '../../analysis/sheet.js';
import { Failure } from '../../scenario/failure.js';
import { counted } from '../../wording/phrases.js';
import { file, meaning, whole } from '../options.js';
import { SEED } from '../shared-options.js';
import { study } from '../study.js';
import { hindcastWork } from './hindcast.js';
import { readFinished, WANTED } from './read-finished.js';
import { hindcastReport } from './report.js';

const CAMPAIGNS = { what: 'a table of finished campaigns', form: 'it is comma-separated text', most: GREATEST_LOG };

export const hindcastStudy = study({
  question: 'Can we trust our scenario: do finished campaigns lie in what it predicts?',
  does: 'Say where finished campaigns lie in what the scenario predicts for them',
  options: {
    finished: file('Table (CSV) of finished campaigns, a row each: campaign, strategy, hours, tips, attempts, yield'),
    seed: SEED,
    replications: meaning('Draw all that is uncertain so many times', whole({ min: 100, max: 100_000 }), '1000'),
  },
  begin: (ground, { finished, replications }) => {
    if (finished === undefined)
      throw new Failure(`what did the campaigns come to? --finished CAMPAIGNS.csv; there ${WANTED}`);
    const scenario = ground.scenario();
    const read = ground.text(finished, CAMPAIGNS);
    const reading = readFinished(
      read.text,
      scenario.loaded.strategies.map(({ name }) => name),
    );
    if (!reading.ok) {
      ground.show(read, reading.faults, 'error');
      throw new Failure(`${counted(reading.faults.length, 'error')} in ${finished}; nothing was run or written`);
    }
    return hindcastWork(scenario.loaded, {
      ...ground.making(scenario),
      inputs: [{ option: 'finished', file: basename(finished), sha256: read.sha256 }],
      ...{ campaigns: reading.campaigns, replications },
    });
  },
  report: hindcastReport,
});
