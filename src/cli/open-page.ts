import { spawn } from 'node:child_process';

/** What opens a file in the browser of this machine; null where nobody would see it. */
function opener(): readonly string[] | null {
  if (!process.stderr.isTTY) return null;
  if (process.platform === 'darwin') return ['open'];
  if (process.platform === 'win32') return ['cmd', '/c', 'start', ''];
  const hasScreen = (process.env['DISPLAY'] ?? process.env['WAYLAND_DISPLAY'] ?? '') !== '';
  return hasScreen ? ['xdg-open'] : null;
}

/** Opens a page in the browser where a person sits before one. @returns whether that was tried */
export function openPage(path: string): boolean {
  const words = opener();
  if (words === null) return false;
  const [program, ...before] = words;
  const child = spawn(program, [...before, path], { detached: true, stdio: 'ignore' });
  // Without such a program the page is there all the same, and its name has been said.
  child.on('error', () => undefined);
  child.unref();
  return true;
}
