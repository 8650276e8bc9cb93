import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { campaignAt, runCampaign } from '../../../src/campaign/campaign.js';
import type { KnownCampaign } from '../../../src/execution/midway/known.js';
import type { CampaignModel } from '../../../src/campaign/model.js';
import { observed } from '../../../src/execution/midway/observed.js';
import { LuckTable } from '../../../src/chance/luck.js';
import { nothingDone } from '../../../src/studies/midway/made-state.js';
import { readState } from '../../../src/studies/midway/read-state.js';
import { nowOf } from '../../../src/studies/midway/now.js';
import { momentName, readMoment } from '../../../src/studies/midway/moment.js';
import { stateRows } from '../../../src/studies/midway/state-rows.js';
import { templateRows } from '../../../src/studies/midway/template.js';
import { csv } from '../../../src/report/csv.js';
import { root } from '../../support/command.js';
import { modelsOf } from '../../support/run.js';
import { nonEmpty } from '../../support/non-empty.js';

const SCENARIOS = ['ambient-islands', 'soft-membranes', 'vacuum-terraces', 'multi-tip-device'];
const textOf = (name: string) => readFileSync(join(root, `scenarios/${name}.yaml`), 'utf8');
/** The islands on several samples, with a specimen for each and one to spare. */
const islandsOn = (plan: string) =>
  textOf('ambient-islands')
    .replace('regions: 20', plan)
    .replace(/specimens: .*/u, 'specimens: { atHand: 4 }');
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
        known.instruments.map(({ standing, sample, lostSamples, region, tip, parked, sitesUsed }) => ({
          ...{ standing, sample, lostSamples, region, sitesUsed },
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
    const three = islandsOn('samples: 3\n  regions: 4');
    // One kind for all, of which a critical pass wants unused tips, so that several of the kind are parked.
    const critical = three
      .replace('name: islands', 'name: islands\n      critical: true')
      .replace(/ +allocation: .*\n/u, '');
    let mostParked = 0;
    for (const text of [...SCENARIOS.map(textOf), three, critical]) {
      for (const model of nonEmpty(modelsOf(text).values())) {
        for (let replication = 0; replication < 12; replication += 1) {
          const luck = table.replication(replication);
          const moment = model.start + Math.floor((runCampaign(model, luck).elapsed[0] * replication) / 15);
          const state = campaignAt(model, luck, moment);
          if (state === null) continue;
          const known = observed(model, state);
          mostParked = Math.max(mostParked, ...known.instruments.map(({ parked }) => parked.length));
          const back = knownFrom(model, csv(stateRows(model, known)));
          expect(back.images).toEqual(known.images);
          expect(rounded(back)).toBe(rounded(known));
          expect(Math.abs(back.now - known.now)).toBeLessThan(60e6);
        }
      }
    }
    expect(mostParked).toBeGreaterThan(1);
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
    // One overview, and of the rest as much of each pass.
    const [overview, islands] = [(2 * 5000 * 256) / 1e6, (2 * 1500 * 512) / 1e6];
    expect(tip?.use.path).toBeCloseTo(overview + (1.5 * (overview + islands)) / 2, 9);
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

  it.each([
    ['images', '12 images', { images: 12 }],
    ['path', '62 000 mm', { path: 62_000 }],
    ['hours', '7,5 h', { hours: 7.5 }],
    ['approaches', '40 approaches', { approaches: 40 }],
  ])('counts the %s of a tip as they are given, whatever the rest says', (_unit, text, expected) => {
    const said = ['3 images', '8 mm', '2 h', '4 approaches'].map((each) => {
      const isSameUnit = each.split(' ').at(-1) === text.split(' ').at(-1);
      return `tip use,,"${isSameUnit ? text : each}"\n`;
    });
    const known = knownFrom(SWAP, `what,which,value\nnow,,Tu 14:00\ntip on,,sharp\n${said.join('')}`);
    const use = { images: 3, path: 8, hours: 2, approaches: 4, ...expected };
    expect(known.instruments[0].tip?.use).toEqual(use);
  });

  it('takes the images of a tip from its path, hours or approaches where it says no more', () => {
    const images = (use: string) =>
      knownFrom(SWAP, `what,which,value\nnow,,Tu 14:00\ntip on,,sharp\ntip use,,${use}\n`).instruments[0].tip?.use
        .images;
    const [overview, islands] = SWAP.passes;
    expect(images(`${2 * (overview.path + islands.path)} mm`)).toBeCloseTo(4, 9);
    expect(images(`${(3 * (overview.scanTime + islands.scanTime)) / 3600} h`)).toBeCloseTo(6, 9);
    // Both passes of a region at one visit.
    expect(images('5 approaches')).toBe(10);
  });

  it('understands words that people write for those of the table', () => {
    const known = knownFrom(
      SWAP,
      [
        'What,Which,Value,Takes',
        'now,,"Wednesday, 2:30 pm",',
        'image,1,done,n/a',
        'image,2,OK,2',
        'image,3,not reviewed,',
        'image,4,redo,',
        'image,5,Running,',
        'image,6,n/a,',
        'image,7,to do,',
        'image,8,abandoned,',
        'instrument,,scanning,',
        'region in place,,n/a,',
        'tip on,,Sharp,',
        'tip use,sharp,3 images,',
        'tip checked,,n/a,',
        'tip radius,,–,',
        'tip judged,,ok,',
        'left,Sharp tip,7,',
      ].join('\n'),
    );
    expect(known.now).toBe((2 * 24 + 14.5) * 3_600_000_000);
    expect(known.images.slice(0, 8)).toEqual([
      { fate: 'kept', takes: 1 },
      { fate: 'kept', takes: 2 },
      { fate: 'unreviewed', takes: 1 },
      { fate: 'flagged', takes: 1 },
      { fate: 'not yet', takes: 0 },
      { fate: 'not yet', takes: 0 },
      { fate: 'not yet', takes: 0 },
      { fate: 'flagged', takes: SWAP.settings.noticing.attempts },
    ]);
    const [{ standing, region, tip, left }] = known.instruments;
    expect({ standing, region, left }).toEqual({ standing: 'at work', region: 2, left: [['sharp tip', 7]] });
    expect(tip).toMatchObject({ isChecked: false, judgement: 'sound', radius: null });
  });

  it.each([
    ['We 14:00', 'Wed 14:00'],
    ['wed 14.05', 'Wed 14:05'],
    ['Weds 14:00', null],
    ['Thursday at 12 am', 'Thu 00:00'],
    ['Thu 12 pm', 'Thu 12:00'],
    ['week 3, Friday 9:15', 'week 3 Fri 09:15'],
    ['Friday 13 pm', null],
    ['Friday 9', null],
    ['Friday 24:30', null],
    ['Someday 9:00', null],
  ])('reads the moment %s as %s', (text, expected) => {
    const moment = readMoment(SWAP, text);
    expect(moment.ok ? momentName(moment.value) : null).toBe(expected);
  });

  it('says which sample is on and counts regions within it, by number or name', () => {
    const plan = 'samples: [{ name: mica }, { name: wafer edge, regions: 3 }]\n  regions: 4';
    const named = modelsOf(islandsOn(plan)).get('hop');
    const counted = modelsOf(islandsOn('samples: 2\n  regions: 4')).get('hop');
    if (named === undefined || counted === undefined) throw new Error('There is a strategy called hop.');
    const head = 'what,which,value\nnow,,Tu 14:00\ntip on,,sharp\ntip use,,3 images\nsites used,sharp,2\n';
    const one = (model: CampaignModel, rows: string) => {
      const { images, instruments } = knownFrom(model, head + rows);
      const [{ sample, region }] = instruments;
      return { kept: images.flatMap(({ fate }, image) => (fate === 'kept' ? [image] : [])), sample, region };
    };
    const kept = [8 + 2 * 2];
    expect(one(counted, 'image,sample 2 region 3: overview,done\n')).toEqual({ kept, sample: 1, region: 4 + 2 });
    expect(one(named, 'image,Sample wafer edge region 3 overview,done\n')).toEqual({ kept, sample: 1, region: 4 + 2 });
    const rows = (sample: string) => `image,1,done\nsample on,,${sample}\nregion in place,,2\n`;
    for (const sample of ['2', 'sample 2'])
      expect(one(counted, rows(sample))).toEqual({ kept: [0], sample: 1, region: 4 + 1 });
    for (const sample of ['2', 'wafer edge'])
      expect(one(named, rows(sample))).toEqual({ kept: [0], sample: 1, region: 4 + 1 });
    expect(faultsOf(named, `${head}sample on,,wafer ege\n`).join()).toContain('did you mean `wafer edge`?');
    expect(faultsOf(named, `${head}sample on,,wafer edge\nregion in place,,4\n`).join()).toContain('from 1 to 3');
    const lost = knownFrom(counted, `${head}sample lost,,1\nsample on,,2\n`).instruments[0].lostSamples;
    expect(lost).toEqual([0]);
  });

  it('says what comes next sample by sample, from the one that is on', () => {
    const model = modelsOf(islandsOn('samples: 3\n  regions: 2')).get('hop');
    if (model === undefined) throw new Error('There is a strategy called hop.');
    const rows = ['image,1,redo', 'image,2,done', 'image,5,done', 'image,6,redo', 'sample on,,2', 'region in place,,2'];
    const head = 'what,which,value\nnow,,Tu 14:00\ntip on,,sharp\ntip use,,3 images\nsites used,sharp,2\n';
    const [instrument] = nowOf(model, knownFrom(model, head + rows.join('\n'))).instruments;
    expect(instrument).toMatchObject({ sample: 'sample 2', region: 2 });
    expect(instrument.next).toEqual([
      { sample: 'sample 2', images: ['region 2: overview', 'region 2: islands', 'region 1: islands'] },
      {
        sample: 'sample 3',
        images: ['region 1: overview', 'region 1: islands', 'region 2: overview', 'region 2: islands'],
      },
      { sample: 'sample 1', images: ['region 2: overview', 'region 2: islands', 'region 1: overview'] },
    ]);
  });

  it('knows any number of parked tips of a kind apart, the last images being by the tip that is on', () => {
    const head = 'what,which,value\nnow,,Tu 14:00\nimage,1,done\nimage,2,done\nimage,3,done\nimage,4,done\n';
    const tips = 'tip on,,sharp\ntip use,,1 image\ntip parked,,sharp\ntip parked,,sharp\n';
    const uses = 'tip use,"sharp, parked 1",2 images\ntip use,sharp parked 2,1 image\n';
    const [{ tip, parked }] = knownFrom(SWAP, head + tips + uses).instruments;
    expect([tip, ...parked].map((one) => [one?.use.images, one?.since])).toEqual([
      [1, [3]],
      [2, [0, 1]],
      [1, [2]],
    ]);
    const named = 'tip on,,sharp\ntip use,,1 image\ntip parked,in box A,sharp\ntip use,in box A,2 images\n';
    expect(knownFrom(SWAP, head + named).instruments[0].parked[0].use.images).toBe(2);
    expect(faultsOf(SWAP, head + tips).join()).toContain('no row says how much the tip `sharp, parked 1` was used');
  });

  it('says of an image that is being scanned how it counts, and that it is scanned again where it was before', () => {
    const reading = readState(
      SWAP,
      'what,which,value,takes\nnow,,Tu 14:00\nimage,3,running,2\ntip on,,sharp\ntip use,,1 image\n',
    );
    if (!reading.ok) throw new Error(reading.faults[0].message);
    expect(reading.known.images[2]).toEqual({ fate: 'flagged', takes: 1 });
    expect(reading.known.instruments[0]).toMatchObject({ standing: 'at work', region: 1 });
    expect(reading.notes.join(' ')).toContain('region 2: overview is being scanned now');
  });

  it('that was printed to be filled in says that nothing is done, and has rows for the use of the tip', () => {
    for (const model of [SWAP, HOP]) {
      const rows = templateRows(model);
      expect(knownFrom(model, csv(rows))).toEqual(knownFrom(model, csv(stateRows(model, nothingDone(model)))));
      const said = new Map([
        ['now ', 'Tu 14:00'],
        ['image region 1: overview', 'done'],
        ['tip on ', 'sharp'],
        ['tip use ', '12 images'],
        ['tip checked ', 'never'],
        ['tip judged ', 'sound'],
        ['sites used sharp', '3'],
      ]);
      const filled = rows.map(([what, which, value, ...more]) => [
        ...[what, which, said.get(`${what} ${which}`) ?? value],
        ...more,
      ]);
      const first = filled.findIndex(([what]) => what === 'tip use');
      const [what, which, , ...more] = filled[first + 1];
      filled[first + 1] = [what, which, '62 mm', ...more];
      const [{ standing, region, tip }] = knownFrom(model, csv(filled)).instruments;
      expect({ standing, region }).toEqual({ standing: 'at work', region: 0 });
      expect(tip?.use).toMatchObject({ images: 12, path: 62 });
    }
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
        'now,,Tuesday after lunch,',
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
    expect(faults[0]).toMatch(/^2:6 read `Tuesday after lunch`; .*`week 2 Tue 14:00` is wanted$/);
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
    expect(said('tip on,,sharp,\ntip use,,3 images,\ntip use,,4 images,\n')).toContain(
      '`tip use` counted per image stands here for the second time',
    );
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
