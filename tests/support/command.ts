import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));
const main = join(root, 'dist/cli/main.js');

export interface Outcome {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
  /** Milliseconds from the signal that was sent to the end; null where none was. */
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
    const child = spawn(surroundings.node ?? process.execPath, [main, ...args], {
      cwd: surroundings.cwd ?? root,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, CI: 'true' },
    });
    const text = { stdout: '', stderr: '' };
    for (const name of ['stdout', 'stderr'] as const) {
      child[name].setEncoding('utf8').on('data', (part: string) => {
        text[name] += part;
      });
    }
    if (surroundings.deaf === true) child.stdout.destroy();
    let sent: number | null = null;
    if (surroundings.interruptAfter !== undefined)
      setTimeout(() => {
        sent = performance.now();
        child.kill(surroundings.signal ?? 'SIGINT');
      }, surroundings.interruptAfter);
    child.on('error', reject);
    child.on('close', (code, signal) => {
      resolve({ code, signal, ...text, lingered: sent === null ? null : performance.now() - sent });
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
