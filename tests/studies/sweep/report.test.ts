import { expect, it } from 'vitest';
import { renderPicture } from '../../../src/report/render.js';
import { linesChart } from '../../../src/studies/sweep/lines-chart.js';
import { sweepWork } from '../../../src/studies/sweep/sweep.js';
import { readVaried } from '../../../src/analysis/vary/varied.js';
import { runInProcess } from '../../../src/execution/in-process.js';
import { KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';
import { nonEmpty } from '../../support/non-empty.js';

it('a sweep drawn as lines names each of its strategies', async () => {
  const loaded = loadedFrom(KNOWN_TEXT);
  const reading = readVaried(loaded, 'pace.scan=1, 2', null);
  if (!reading.ok) throw new Error(reading.message);
  const record = { file: 'known.yaml', sha256: '0', toolVersion: '0', seed: 'lines' };
  const result = runInProcess(sweepWork(loaded, { ...record, vary: [reading.value] }));
  const spec = linesChart.drawing(result)?.(928);
  if (spec === undefined) throw new Error('nothing drawn');
  const { svg } = await renderPicture(spec, { prefix: 'lines', title: 'lines', description: '' });
  for (const { name } of nonEmpty(result.strategies)) expect(svg).toContain(`>${name}</text>`);
});
