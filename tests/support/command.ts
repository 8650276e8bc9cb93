import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));
const main = join(root, 'dist/cli/main.js');
const interrupt = new URL('interrupt.js', import.meta.url).href;

export interface Outcome {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
  /** Milliseconds of processor time from the signal that was sent to the end; null where none was, or where it ended the program itself. */
  readonly lingered: number | null;
}

interface Surroundings {
  /** Which Node runs it; the one of the tests unless given. */
  readonly node?: string;
  readonly cwd?: string;
  /** Sends a signal after so many milliseconds. */
  readonly interruptAfter?: number;
  /** Which one; Ctrl-C unless given. */
  readonly signal?: NodeJS.Signals;
  /** Closes the reading end of stdout at once, as `| true` does. */
  readonly deaf?: boolean;
}

/** Runs the command as a user does, as a process of its own. */
export function swapOrHop(args: readonly string[], surroundings: Surroundings = {}): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const { interruptAfter: after, signal = 'SIGINT' } = surroundings;
    const first = after === undefined ? [] : ['--import', interrupt];
    const child = spawn(surroundings.node ?? process.execPath, [...first, main, ...args], {
      cwd: surroundings.cwd ?? root,
      stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
      env: { ...process.env, CI: 'true', INTERRUPT_AFTER: String(after), INTERRUPT_BY: signal },
    });
    const text = { stdout: '', stderr: '', lingered: '' };
    for (const [place, name] of (['stdout', 'stderr', 'lingered'] as const).entries()) {
      const stream = child.stdio[place + 1];
      if (!(stream instanceof Readable)) continue;
      stream.setEncoding('utf8').on('data', (part: string) => {
        text[name] += part;
      });
    }
    if (surroundings.deaf === true) child.stdout?.destroy();
    child.on('error', reject);
    child.on('close', (code, signal) => {
      resolve({ code, signal, ...text, lingered: text.lingered === '' ? null : Number(text.lingered) });
    });
  });
}

/** Runs `work` in a folder of its own, which is gone afterwards. */
export async function inEmptyFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-test-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
