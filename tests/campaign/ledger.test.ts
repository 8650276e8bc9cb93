import { NO_DRIFT } from '../../src/campaign/instrument-drift.js';
import { expect, it } from 'vitest';
import { Ledger } from '../../src/campaign/ledger.js';
import { HOPPING, sceneModel } from '../support/scene.js';

it('looks at a take once when its specimen is lost, however many are lost at that image', () => {
  const model = sceneModel(HOPPING);
  const ledger = new Ledger(model);
  const [image] = model.images;
  const LOSSES = 500;
  let looks = 0;
  for (let running = 0; running < LOSSES; running += 1) {
    const before = ledger.last(image);
    const rest = {
      tip: null,
      start: running,
      end: running,
      quality: 1,
      good: true,
      drift: NO_DRIFT,
      flaggedAt: null,
      flaggedFrom: null,
      voidAt: null,
      voidFrom: null,
    };
    ledger.add({
      ...{ image, running, ...rest },
      get previous() {
        looks += 1;
        return before;
      },
    });
    expect(ledger.kept(image)?.running).toBe(running);
    ledger.voidTakes([image], running, running);
    expect(ledger.kept(image)).toBeNull();
  }
  expect(ledger.attempts(image)).toBe(0);
  expect(looks).toBe(LOSSES);
  expect(ledger.takesOf(0).map(({ voidAt }) => voidAt)).toEqual(Array.from({ length: LOSSES }, (_, take) => take));
});
