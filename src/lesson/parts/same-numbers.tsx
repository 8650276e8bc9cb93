import { useRef, useState } from 'preact/hooks';
import { DataTable } from '../../page/parts/figure.js';
import { shellLine } from '../../scenario/shell-line.js';
import type { Part, StageProps } from '../stage.js';
import type { NumberSetting } from '../state.js';
import type { Numbers } from '../tasks/numbers.js';
import { Button, StatusLine, useNumber } from './controls.js';
import { tableOf } from './figure.js';
import { useAnswer } from './use-answer.js';

const HOW_MANY: NumberSetting = { key: 'numbers-replications', start: 200, least: 2, most: 20_000, step: 1 };

/** Shown of each strategy, and what it is called. */
const SHOWN = [
  ['totalTime', 'Total time (s)'],
  ['yield', 'Yield'],
  ['tips', 'Tips'],
] as const;

function tableAt({ strategies }: Numbers) {
  return tableOf(
    ['Strategy', ...SHOWN.map(([, name]) => name)],
    strategies.map(({ name, measures }) => [name, ...SHOWN.map(([measure]) => String(measures[measure].value))]),
  );
}

function Content({ stage: { engine, facts, state, seed } }: StageProps) {
  const field = useRef<HTMLInputElement>(null);
  const [replications, put] = useNumber(state, HOW_MANY);
  const [isAsked, ask] = useState(false);
  const { latest, whole, fault } = useAnswer(
    engine,
    'numbers',
    isAsked ? { changes: [], seed, replications } : null,
    0,
  );
  const run = () => {
    if (field.current === null) return;
    const typed = field.current.valueAsNumber;
    if (Number.isFinite(typed)) put(typed);
    field.current.value = String(state.number(HOW_MANY));
    ask(true);
  };
  const line = `${shellLine('compare', facts.file, { seed: seed ?? undefined })} --json --replications N`;
  return (
    <>
      <p>
        This page runs the same program as the command line, with the same random numbers. To check that, compare the
        two:
      </p>
      <pre>
        <code>{line}</code>
      </pre>
      <div class="controls">
        <div>
          <label for={HOW_MANY.key}>Replications N</label>
          <input
            ref={field}
            type="number"
            id={HOW_MANY.key}
            min={HOW_MANY.least}
            max={HOW_MANY.most}
            value={replications}
          />
        </div>
      </div>
      <div class="row">
        <Button onPress={run}>Run them here</Button>
      </div>
      <StatusLine>
        {fault ??
          (whole?.question.replications === replications
            ? `Done: ${replications} replications of every strategy.`
            : isAsked && 'Running …')}
      </StatusLine>
      {latest === null ? null : (
        <DataTable caption="Means over the replications, to the last digit" table={tableAt(latest.answer)} />
      )}
    </>
  );
}

export const sameNumbers: Part = { id: 'numbers', title: 'The same numbers as the command line', Content };
