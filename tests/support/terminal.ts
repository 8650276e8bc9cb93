import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { root } from './command.js';

const MAIN = join(root, 'dist/cli/main.js');

/**
 * Runs the command on a real terminal (`script` of util-linux gives it one), types each answer once its question stands there, and
 * gives all that was to be seen.
 * @param dialogue what a question is known by, and what is typed
 */
export function onTerminal(
  args: readonly string[],
  dialogue: readonly (readonly [string, string])[],
  cwd: string,
): Promise<{ readonly code: number | null; readonly seen: string }> {
  const line = [process.execPath, MAIN, ...args].map((word) => `'${word.replaceAll("'", "'\\''")}'`).join(' ');
  return new Promise((resolve, reject) => {
    const child = spawn('script', ['--quiet', '--return', '--command', line, '/dev/null'], {
      cwd,
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    let [seen, from, next] = ['', 0, 0];
    child.stdout.setEncoding('utf8').on('data', (part: string) => {
      seen += part;
      while (next < dialogue.length) {
        const [question, answer] = dialogue[next];
        const at = seen.indexOf(question, from);
        if (at < 0) return;
        [from, next] = [at + question.length, next + 1];
        child.stdin.write(`${answer}\r`);
      }
    });
    child.on('error', reject);
    child.on('close', (code) => {
      resolve({ code, seen });
    });
  });
}
