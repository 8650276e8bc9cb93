import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { campaignAt, runCampaign } from '../../../src/campaign/campaign.js';
import type { KnownCampaign } from '../../../src/campaign/known.js';
import type { CampaignModel } from '../../../src/campaign/model.js';
import { observed } from '../../../src/campaign/observed.js';
import { LuckTable } from '../../../src/chance/luck.js';
import { nothingDone } from '../../../src/study/midway/made-state.js';
import { readState } from '../../../src/study/midway/read-state.js';
import { stateRows } from '../../../src/study/midway/state-rows.js';
import { csv } from '../../../src/report/csv.js';
import { root } from '../../support/command.js';
import { modelsOf } from '../../support/run.js';

const SCENARIOS = ['ambient-islands', 'soft-membranes', 'vacuum-terraces', 'multi-tip-device'];
const textOf = (name: string) => readFileSync(join(root, `scenarios/${name}.yaml`), 'utf8');
const modelNamed = (scenario: string, strategy: string): CampaignModel => {
  const model = modelsOf(textOf(scenario)).get(strategy);
  if (model === undefined) throw new Error(`no strategy ${strategy}`);
  return model;
};
const SWAP = modelNamed('ambient-islands', 'swap by hand');
const HOP = modelNamed('ambient-islands', 'hop');

function knownFrom(model: CampaignModel, text: string): KnownCampaign {
  const reading = readState(model, text);
  if (!reading.ok) throw new Error(reading.faults.map(({ line, message }) => `${line}: ${message}`).join('\n'));
  return reading.known;
}

function faultsOf(model: CampaignModel, text: string): readonly string[] {
  const reading = readState(model, text);
  return reading.ok ? [] : reading.faults.map(({ line, column, message }) => `${line}:${column} ${message}`);
}

describe('a table of how a campaign stands', () => {
  it('tells back what was written of simulated campaigns stopped anywhere, in every scenario and strategy', () => {
    const rounded = (known: KnownCampaign) =>
      JSON.stringify(
        known.instruments.map(({ standing, region, tip, parked, sitesUsed }) => ({
          ...{ standing, region, sitesUsed },
          tips: [tip, ...parked].map((one) =>
            one === null
              ? null
              : [
                  one.kind,
                  Number(one.use.path.toPrecision(4)),
                  Number(one.use.images.toPrecision(4)),
                  one.isChecked,
                  one.judgement,
                  one.flaggedImage,
                ],
          ),
        })),
      );
    const table = new LuckTable('stopped');
    for (const scenario of SCENARIOS) {
      for (const model of modelsOf(textOf(scenario)).values()) {
        for (let replication = 0; replication < 12; replication += 1) {
          const luck = table.replication(replication);
          const moment = model.start + Math.floor((runCampaign(model, luck).elapsed[0] * replication) / 15);
          const state = campaignAt(model, luck, moment);
          if (state === null) continue;
          const known = observed(model, state);
          const back = knownFrom(model, csv(stateRows(model, known)));
          expect(back.images).toEqual(known.images);
          expect(rounded(back)).toBe(rounded(known));
          expect(Math.abs(back.now - known.now)).toBeLessThan(60e6);
        }
      }
    }
  });

  it('that says that nothing is done yet is the start of the experiment', () => {
    const known = knownFrom(HOP, csv(stateRows(HOP, nothingDone(HOP))));
    expect(known).toMatchObject({ now: HOP.start, grantedUntil: HOP.allocationEnd });
    expect(known.instruments).toMatchObject([{ standing: 'not begun', tip: null }]);
    expect(new Set(known.images.map(({ fate }) => fate))).toEqual(new Set(['not yet']));
  });

  it('may be short: what is not said follows from the rest', () => {
    const known = knownFrom(
      SWAP,
      'what;which;value;takes\nnow;;Tu 14:00\nimage;1;kept\nimage;Region 1 islands;flagged;2\ntip on;;sharp\ntip use;;"2,5 images"\nleft;sharp tip;7\n',
    );
    expect(known.images.slice(0, 3)).toEqual([
      { fate: 'kept', takes: 1 },
      { fate: 'flagged', takes: 2 },
      { fate: 'not yet', takes: 0 },
    ]);
    const [{ standing, region, tip, left }] = known.instruments;
    expect({ standing, region, left }).toEqual({ standing: 'at work', region: 0, left: [['sharp tip', 7]] });
    expect(tip).toMatchObject({
      use: { images: 2.5, approaches: 2 },
      isChecked: false,
      since: [0],
      judgement: 'sound',
    });
    expect(tip?.use.path).toBeCloseTo(2.5 * ((2 * 5000 * 256 + 2 * 1500 * 512) / 2 / 1e6), 9);
  });

  it('counts what a failed check made suspect among the takes of its tip, though it is flagged', () => {
    const rows = [1, 2, 3, 4].map((image) => `image,${image},${image < 3 ? 'kept' : 'flagged'}`).join('\n');
    const tip = 'tip on,,sharp\ntip use,,4 images\ntip checked,,2 images ago\n';
    const since = (judged: string) =>
      knownFrom(SWAP, `what,which,value\nnow,,Tu 14:00\n${rows}\n${tip}tip judged,,${judged}\n`).instruments[0].tip
        ?.since;
    expect(since('failed')).toEqual([2, 3]);
    expect(since('flagged')).toEqual([1]);
  });

  it('takes what is left of the granted time from where it stands', () => {
    const known = knownFrom(SWAP, 'what,which,value\nnow,,week 2 Tu 14:00\ngranted left,,2 h\n');
    expect((known.grantedUntil ?? 0) - known.now).toBe(2 * 3_600_000_000);
    expect(known.now).toBe((8 * 24 + 14) * 3_600_000_000);
    const sessions = knownFrom(SWAP, 'what,which,value\nnow,,Tu 14:00\ngranted left,,2 sessions\n');
    expect(sessions.grantedUntil).toBe((2 * 24 + 17) * 3_600_000_000);
  });

  it('that is wrong says everything that is, each with its place and what to write instead', () => {
    const faults = faultsOf(
      SWAP,
      [
        'what,which,value,takes',
        'now,,Tuesday 2 pm,',
        'image,region 99: islands,kept,1',
        'image,region 1: islands,keept,1',
        'image,region 2: islands,kept,9',
        'tip on,,shrap,',
        'tipp use,,3 images,',
        'left,sharp tips,-1,',
        'granted left,,soon,',
      ].join('\n'),
    );
    expect(faults).toHaveLength(8);
    expect(faults[0]).toMatch(/^2:6 read `Tuesday 2 pm`; .*`week 2 Tu 14:00`$/);
    expect(faults[1]).toMatch(/^3:7 the plan has no image `region 99: islands`/);
    expect(faults[2]).toBe('4:25 read `keept`; did you mean `kept`?');
    expect(faults[3]).toBe('5:30 read `9`; a whole number from 1 to 4 is wanted');
    expect(faults[4]).toBe('6:9 no tip kind is called `shrap`; did you mean `sharp`?');
    expect(faults[5]).toBe('7:1 read `tipp use`; did you mean `tip use`?');
    expect(faults[6]).toMatch(/^8:6 the scenario limits no `sharp tips`; did you mean `sharp tip`\?$/);
    expect(faults[7]).toMatch(/^9:15 /);
  });

  it('that contradicts itself is refused', () => {
    const head = 'what,which,value,takes\nnow,,Tu 14:00,\n';
    const said = (rows: string) => faultsOf(SWAP, head + rows).join('; ');
    expect(said('tip on,,sharp,\n')).toContain('no row says how much the tip `sharp` was used');
    expect(said('tip on,,sharp,\ntip use,,3 images,\ntip checked,,5 images ago,\n')).toContain('3 whole images only');
    expect(said('tip use,sharp,3 images,\n')).toContain('no tip of kind `sharp` is on or parked');
    expect(said('image,1,kept,\nimage,region 1: overview,kept,\n')).toContain('for the second time');
    expect(said('now,,We 14:00,\n')).toContain('`now` stands here for the second time');
    expect(faultsOf(SWAP, 'what,which,value\nnow,,week 1 Mo 09:00\n').join()).toContain('before the start');
    expect(faultsOf(SWAP, '')).toEqual([expect.stringContaining('the table is empty')]);
    expect(faultsOf(SWAP, 'a,b\n1,2\n').join()).toContain('no column is called `what`');
  });

  it('is read as people find it in the examples', () => {
    const text = readFileSync(join(root, 'scenarios/states/ambient-islands-tuesday.csv'), 'utf8');
    const known = knownFrom(SWAP, text);
    expect(known.images.filter(({ fate }) => fate === 'kept').length).toBe(25);
  });
});
