import { createInterface } from 'node:readline/promises';
import { harmless, inOneLine } from '../scenario/harmless.js';
import type { Ask } from '../studies/study.js';

/** Whether somebody sits there who can be asked. */
export function canAsk(): boolean {
  return process.stdin.isTTY && process.stderr.isTTY;
}

/** Does something with a person to ask, on the terminal that stderr shows. */
export async function asking<Result>(work: (ask: Ask) => Promise<Result>): Promise<Result> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await work(async (question) => (await lines.question(`${harmless(inOneLine(question), false)} `)).trim());
  } finally {
    lines.close();
  }
}
