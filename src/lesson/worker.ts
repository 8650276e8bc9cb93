/// <reference lib="dom" />
/** Entry of the worker: runs the engine beside the page, so that the page never waits for it. */

import { isToWorker, type ToPage } from './messages.js';
import { Scenarios } from './task.js';
import { answer, type Ask } from './tasks.js';

let scenarios: Scenarios | null = null;
const dropped = new Set<number>();

function tell(message: ToPage): void {
  self.postMessage(message);
}

/** Lets messages in that came while the engine was at work. */
function pause(): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve);
  });
}

async function work(id: number, ask: Ask): Promise<void> {
  try {
    if (scenarios === null) throw new Error('no scenario has been opened');
    for await (const each of answer(ask, scenarios)) {
      tell({ kind: 'answer', id, answer: each });
      await pause();
      if (dropped.has(id)) break;
    }
    tell({ kind: 'end', id });
  } catch (error) {
    tell({ kind: 'fault', id, message: error instanceof Error ? error.message : String(error) });
  }
  dropped.delete(id);
}

self.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  if (!isToWorker(data)) return;
  switch (data.kind) {
    case 'open':
      scenarios = new Scenarios(data.text);
      break;
    case 'ask':
      void work(data.id, data.ask);
      break;
    case 'drop':
      dropped.add(data.id);
      break;
  }
});
