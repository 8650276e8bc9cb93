/// <reference lib="dom" />
/** Entry of the worker: runs the engine beside the page, so that the page never waits for it. */

import { Explorer } from './engine/explorer.js';
import { isToWorker } from './messages.js';

const explorer = new Explorer(
  (message) => {
    self.postMessage(message);
  },
  () =>
    new Promise((resolve) => {
      setTimeout(resolve);
    }),
);

self.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  if (!isToWorker(data)) return;
  switch (data.kind) {
    case 'text':
      void explorer.read(data.version, data.text);
      break;
    case 'value':
      void explorer.put(data.version, data.path, data.value);
      break;
    case 'pin':
      void explorer.pin(data.slot, data.isPinned);
      break;
    case 'along':
      void explorer.along(data.path);
      break;
    case 'worth':
      void explorer.worth();
      break;
    case 'replications':
      void explorer.runTo(data.most);
      break;
  }
});
