import { describe, expect, it } from 'vitest';
import { compare } from '../../src/studies/compare/compare.js';
import { ALL, hostileScenario } from '../hostile/words.js';
import { checkPage, openPages } from '../support/page-checks.js';
import { reportTexts } from '../support/report-texts.js';
import { nonEmpty } from '../support/non-empty.js';
import { loadedOf } from '../support/run.js';

/** What somebody would put into a page who found a hole in the escaping: each way to run a script or to fetch something. */
const INTRUDER = `<script>window.ran = 'script'</script>
<script src="http://127.0.0.1:9/a.js"></script>
<img src="data:image/png;base64,AAAA" onerror="window.ran = 'handler'"><img src="http://127.0.0.1:9/a.png">
<svg onload="window.ran = 'svg'"><script>window.ran = 'script in svg'</script></svg>
<iframe srcdoc="<script>parent.ran = 'frame'</script>"></iframe><iframe src="http://127.0.0.1:9/"></iframe>
<object data="http://127.0.0.1:9/a.swf"></object><link rel="stylesheet" href="http://127.0.0.1:9/a.css">
<style>@import 'http://127.0.0.1:9/b.css'; body { background: url(http://127.0.0.1:9/b.png) }</style>
<a id="link" href="javascript:window.ran = 'link'">link</a>`;

const pages = openPages(async () => {
  const loaded = loadedOf(hostileScenario());
  const record = {
    file: `${ALL.slice(0, 200)}.yaml`,
    sha256: '0',
    toolVersion: '0',
    command: `swap-or-hop compare '${ALL}'`,
  };
  const files = await reportTexts(compare(loaded, { ...record, warnings: [ALL], replications: 20 }));
  const page = files.get('report.html');
  if (typeof page !== 'string') throw new Error('a page is one text');
  return { hostile: page, broken: page.replace('</body>', `${INTRUDER}</body>`) };
});

// Every chart but the one of what is in time, as nothing is booked.
checkPage(pages, 'hostile', 8);

describe('a page whose escaping were broken', () => {
  it('runs no script and fetches nothing, by its policy', async () => {
    await pages.onPage('broken', {}, async (tab, address) => {
      const failures = new Map<string, string>();
      const fetched: string[] = [];
      tab.on('requestfailed', (request) => failures.set(request.url(), request.failure()?.errorText ?? ''));
      tab.on('requestfinished', (request) => fetched.push(request.url()));
      await tab.goto(address, { waitUntil: 'load' });
      await tab.locator('#link').click({ force: true });
      await tab.waitForTimeout(300);
      expect(await tab.evaluate<unknown>('window.ran ?? null')).toBeNull();
      expect(fetched.filter((url) => !url.startsWith('data:') && !url.startsWith('about:'))).toEqual([address]);
      for (const failure of nonEmpty(failures.values())) expect(failure).toMatch(/csp|BLOCKED/iu);
    });
  });
});
