import { expect, it } from 'vitest';
import { renderPicture } from '../../src/report/render.js';
import { linesChart } from '../../src/report/sweep/lines-chart.js';
import { sweepWork } from '../../src/study/sweep/sweep.js';
import { readVaried } from '../../src/study/vary/varied.js';
import { alone } from '../../src/study/work/alone.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

it('a sweep drawn as lines names each of its strategies', async () => {
  const loaded = loadedFrom(KNOWN_TEXT);
  const reading = readVaried(loaded, 'pace.scan=1, 2', null);
  if (!reading.ok) throw new Error(reading.message);
  const record = { file: 'known.yaml', sha256: '0', toolVersion: '0', seed: 'lines' };
  const result = alone(sweepWork(loaded, { ...record, vary: [reading.value] }));
  const spec = linesChart.spec(result);
  if (spec === null) throw new Error('nothing drawn');
  const { svg } = await renderPicture(spec, { prefix: 'lines', title: 'lines', description: '' });
  for (const { name } of result.strategies) expect(svg).toContain(`>${name}</text>`);
});
