import { basename } from 'node:path';
import { provenanceOf } from '../analysis/about.js';
import { traceReplication } from '../analysis/trace.js';
import { traceLine, tracePage, traceText } from '../report/trace.js';
import { shellLine } from '../scenario/shell-line.js';
import { flag, meaning, text, whole } from '../studies/options.js';
import { SEED, strategyNamed } from '../studies/shared-options.js';
import { command } from './command.js';
import { openScenario } from './scenario-file.js';
import { recordedHere } from './version.js';
import { writeWholeFile } from '../execution/machine/whole-file.js';

export const trace = command({
  does: 'Show what happened in one replication of one strategy, step by step',
  takes: { form: '<file>', help: 'The scenario (YAML)' },
  options: {
    strategy: text('Name of the strategy [default: the first one]'),
    replication: meaning('Number of the replication, as in replications.csv', whole({ min: 1, max: 1_000_000 }), '1'),
    seed: SEED,
    json: flag('Print one JSON object a line (NDJSON)'),
    html: text('Write a timeline page to this file'),
  },
  run: async ({ strategy: name, replication, seed, json, html }, { file, console }) => {
    const { loaded, sha256 } = openScenario(file, console);
    const strategy = strategyNamed(loaded, name);
    const traced = traceReplication(loaded, strategy, replication, seed);
    const { timeline, events } = traced;
    if (html !== undefined) {
      const line = { strategy, replication: String(replication), seed };
      const page = await tracePage(timeline, events, {
        ...{ title: loaded.base.title, strategy, replication, seed: traced.seed },
        ...provenanceOf({
          ...{ file: basename(file), sha256, ...recordedHere() },
          command: shellLine('trace', basename(file), line),
        }),
      });
      writeWholeFile(html, page);
      console.note(`wrote ${html}`);
    }
    if (json) console.result(events.map(traceLine).join('').trimEnd());
    else if (html === undefined) console.result(traceText(events).trimEnd());
  },
});
