// Draws the pictures that the README shows: a report of the demo scenario in light, and its charts in dark.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const root = fileURLToPath(new URL('../../', import.meta.url));
const gallery = join(root, 'reports/gallery');
const work = mkdtempSync(join(tmpdir(), 'swap-or-hop-gallery-'));
const width = 1200;

try {
  const report = join(work, 'report');
  execFileSync(
    process.execPath,
    [
      join(root, 'dist/cli/main.js'),
      'compare',
      join(root, 'scenarios/ambient-islands.yaml'),
      '--out',
      report,
      '--quiet',
    ],
    { stdio: ['ignore', 'ignore', 'inherit'] },
  );
  mkdirSync(gallery, { recursive: true });
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
  for (const [name, colorScheme, from, height] of [
    ['report', 'light', 0, 1500],
    ['report-dark', 'dark', 1500, 1300],
  ]) {
    const page = await browser.newPage({ colorScheme, viewport: { width, height: from + height } });
    await page.goto(pathToFileURL(join(report, 'report.html')).href);
    await page.screenshot({ path: join(gallery, `${name}.png`), clip: { x: 0, y: from, width, height } });
  }
  await browser.close();
} finally {
  rmSync(work, { recursive: true, force: true });
}
