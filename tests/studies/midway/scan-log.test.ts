import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileModel } from '../../../src/campaign/model.js';
import { csv } from '../../../src/report/csv.js';
import { readState } from '../../../src/studies/midway/read-state.js';
import { isScanLog, SCAN_COLUMNS, stateFromScans, withScan } from '../../../src/studies/midway/scan-log.js';
import { load } from '../../scenario/sample.js';

const { strategies } = load(readFileSync('scenarios/ambient-islands.yaml', 'utf8'));
const modelOf = (workflow: string) => {
  const found = strategies.find((each) => each.workflow === workflow);
  if (found === undefined) throw new Error(`no strategy of ${workflow}`);
  return compileModel(found.workflow, found.settings);
};

const HEAD = SCAN_COLUMNS.join(',');
/** Seven scans with three tips: the first broke, the second was checked and is gone, the third has scanned two images. */
const LOG = `${HEAD}
Tu 09:40,region 1: overview,S-1,kept,,,,
,region 1: islands,,flagged,,,breakage,
,region 1: islands,S-2,kept,,,,
,region 2: overview,,kept,passed,9.5,,
,region 2: islands,,kept,,,contaminated,
,region 3: overview,S-3,kept,,,,
Tu 11:20,region 3: islands,,flagged,,,,
`;

function knownOf(workflow: string, log: string, now: string | null = null) {
  const model = modelOf(workflow);
  const scans = stateFromScans(model, log, now);
  if (!scans.ok) throw new Error(JSON.stringify(scans.faults));
  const reading = readState(model, csv(scans.rows));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.known;
}

describe('a log of scans, as the run sheet has it', () => {
  it('tells how a campaign stands, without any row of the table of states', () => {
    expect(isScanLog(LOG)).toBe(true);
    const { images, instruments, now } = knownOf('swap', LOG);
    expect(images.slice(0, 7).map(({ fate, takes }) => `${fate} ${takes}`)).toEqual([
      'kept 1',
      'kept 2',
      'kept 1',
      'kept 1',
      'kept 1',
      'flagged 1',
      'not yet 0',
    ]);
    const [{ tip, region, standing }] = instruments;
    expect(tip).toMatchObject({ judgement: 'flagged by an image', isChecked: false, flaggedImage: 5, since: [4] });
    expect(tip?.use.images).toBe(2);
    expect([region, standing]).toEqual([2, 'at work']);
    expect(knownOf('swap', LOG, 'Tu 12:00').now).toBeGreaterThan(now);
  });

  it('counts, of hop, the sites that are used as the tips that were', () => {
    expect(knownOf('hop', LOG).instruments[0].sitesUsed).toEqual([[0, 3]]);
  });

  it('tells of a checked tip how long ago, with its radius, and of one that has ended that none is on', () => {
    const upTo = (rows: number) =>
      `${LOG.split('\n')
        .slice(0, rows + 1)
        .join('\n')}\n`;
    const checked = knownOf('swap', upTo(4), 'Tu 11:00').instruments[0].tip;
    expect(checked).toMatchObject({ isChecked: true, radius: 9.5, judgement: 'sound', since: [] });
    expect(knownOf('swap', upTo(5), 'Tu 11:00').instruments[0].tip).toBeNull();
  });

  it('takes what a failed check puts in doubt for flagged, where such images are taken again', () => {
    const failed = LOG.replace(',region 3: overview,S-3,kept,,,,', ',region 3: overview,S-3,kept,failed,12,,');
    const again = modelOf('swap').settings.noticing.check?.repeatSuspects === true;
    expect(knownOf('swap', failed).images[4].fate).toBe(again ? 'flagged' : 'kept');
  });

  it('says everything that is wrong, each with its place', () => {
    const scans = stateFromScans(
      modelOf('swap'),
      `${HEAD}\n,region 99: islands,,kept,,,,\n,2,S-1,running,perhaps,,,\n`,
      null,
    );
    expect(scans.ok ? [] : scans.faults.map(({ line, column, message }) => `${line}:${column} ${message}`)).toEqual([
      expect.stringMatching(/^2:2 the plan has no image `region 99: islands`/u),
      expect.stringMatching(/^2:21 no tip is named/u),
      expect.stringMatching(/^3:16 read `perhaps`/u),
      expect.stringMatching(/^3:8 a row is a scan that is over/u),
      expect.stringMatching(/^1:1 no row says when it was; --now/u),
    ]);
  });

  it('grows scan by scan, and refuses a word that it does not know', () => {
    const first = withScan(null, new Map([['image', '1'] as const, ['tip', 'S-1'], ['outcome', 'kept']]));
    expect(first).toEqual({ ok: true, text: `${HEAD}\n,1,S-1,kept,,,,\n`, rows: 1 });
    const more = withScan(first.ok ? first.text : null, new Map([['image', '2'] as const, ['outcome', 'so so']]));
    expect(more.ok ? [] : more.messages).toEqual([expect.stringContaining('read `so so`')]);
  });
});
