// Draws the pictures that the README shows: a report of the demo scenario in light, its charts in dark, and the lesson.
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
  for (const [name, colorScheme, heading, height] of [
    ['report', 'light', null, 1500],
    ['report-dark', 'dark', 'Charts', 1300],
  ]) {
    const page = await browser.newPage({ colorScheme, viewport: { width, height } });
    await page.goto(pathToFileURL(join(report, 'report.html')).href);
    const box = heading === null ? null : await page.getByRole('heading', { name: heading }).boundingBox();
    const y = box === null ? 0 : box.y - 30;
    await page.screenshot({ path: join(gallery, `${name}.png`), fullPage: true, clip: { x: 0, y, width, height } });
  }
  await drawLesson(browser);
  await browser.close();
} finally {
  rmSync(work, { recursive: true, force: true });
}

/** The part of the lesson on rushing, once it has computed. */
async function drawLesson(browser) {
  const file = join(work, 'lesson.html');
  execFileSync(process.execPath, [join(root, 'dist/cli/main.js'), 'lesson', '--out', file, '--quiet']);
  const page = await browser.newPage({ viewport: { width, height: 900 } });
  await page.goto(`${pathToFileURL(file).href}#rushing-scan=1.75`);
  await page
    .locator('#part-rushing [role=status]', { hasText: 'all images take' })
    .first()
    .waitFor({ timeout: 300_000 });
  await page.locator('#part-rushing').screenshot({ path: join(gallery, 'lesson.png') });
}
