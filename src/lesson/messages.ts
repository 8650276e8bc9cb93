import type { Ask } from './tasks.js';

/** From the page to its worker, in plain data. `id` numbers the questions. */
export type ToWorker =
  | { readonly kind: 'open'; readonly text: string }
  | { readonly kind: 'ask'; readonly id: number; readonly ask: Ask }
  | { readonly kind: 'drop'; readonly id: number };

/** From the worker to its page. */
export type ToPage =
  | { readonly kind: 'answer'; readonly id: number; readonly answer: unknown }
  | { readonly kind: 'end'; readonly id: number }
  | { readonly kind: 'fault'; readonly id: number; readonly message: string };

/** Both ends are of one build, so what looks like a message is one. */
export function isToWorker(data: unknown): data is ToWorker {
  return typeof data === 'object' && data !== null && 'kind' in data;
}

export function isToPage(data: unknown): data is ToPage {
  return typeof data === 'object' && data !== null && 'kind' in data;
}
