import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { EXIT, Failure, systemCode } from '../scenario/failure.js';
import { STUDIES } from '../studies/index.js';
import { neighbourOf } from '../execution/machine/neighbours.js';

/** Names beside charts that reports have, so that nothing of one study stays beside the report of another. */
const REPORT_FILES = new Set([
  ...['report.html', 'summary.json'],
  ...Object.values(STUDIES).flatMap(({ files }) => files),
]);
const CHART = /^charts\/([a-z-]+)\.(?:svg|vl\.json)$/;

/** More runs than this do not write into one folder at one moment. */
const MOST_TRIES = 1000;

/**
 * Renames a folder to a place that may be taken, also by another run meanwhile. A folder is only ever renamed as a whole,
 * so whoever looks sees one report or the other.
 * @returns where the folders went that were in its place
 */
export function takePlace(fresh: string, target: string): readonly string[] {
  const aside: string[] = [];
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    if (isRenamed(fresh, target, ['ENOTEMPTY', 'EEXIST', 'EPERM'])) return aside;
    const old = neighbourOf(target, 'replaced');
    if (isRenamed(target, old, ['ENOENT'])) aside.push(old);
  }
  throw new Failure(`${target} is written by other runs all the time; choose another folder with --out`, EXIT.failed);
}

/** Does it, unless the system refuses for one of these reasons. */
function isDone(work: () => void, refusals: readonly string[]): boolean {
  try {
    work();
    return true;
  } catch (error) {
    if (refusals.includes(systemCode(error) ?? '')) return false;
    throw error;
  }
}

function isRenamed(from: string, to: string, refusals: readonly string[]): boolean {
  return isDone(() => {
    renameSync(from, to);
  }, refusals);
}

/** Whether a folder held nothing any more, and is gone. */
function isRemoved(folder: string): boolean {
  return isDone(() => {
    rmdirSync(folder);
  }, ['ENOTEMPTY', 'EEXIST']);
}

/** Makes a folder in another that may not be there; then it makes none. */
function makeBelow(target: string, folder: string): void {
  isDone(() => {
    mkdirSync(join(target, folder));
  }, ['EEXIST', 'ENOENT']);
}

/** Moves what is not of this program out of an earlier report into the one in its place, and takes the earlier one away. */
export function handOver(old: string, target: string): void {
  const charts = ownCharts(old);
  const isOurs = (name: string): boolean => REPORT_FILES.has(name) || charts.has(CHART.exec(name)?.[1] ?? '');
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    handOverFiles(old, target, '', isOurs);
    // Another run may just have handed over something into here.
    if (isRemoved(old)) return;
  }
}

/** Charts of this program carry their own name inside; a reader's own picture does not. */
function ownCharts(report: string): ReadonlySet<string> {
  const folder = join(report, 'charts');
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return new Set();
  const names = new Set(readdirSync(folder).flatMap((entry) => CHART.exec(`charts/${entry}`)?.[1] ?? []));
  return new Set(
    [...names].filter((name) => {
      const picture = join(folder, `${name}.svg`);
      return (
        existsSync(picture) && readFileSync(picture, 'utf8').includes(`aria-labelledby="${name}-title ${name}-desc"`)
      );
    }),
  );
}

function handOverFiles(old: string, target: string, below: string, isOurs: (name: string) => boolean): void {
  // By its picture a chart is known as ours, also to a run after one that was killed in here: so pictures go last.
  const isPicture = (entry: string): boolean => entry.endsWith('.svg');
  const entries = readdirSync(join(old, below));
  for (const entry of [...entries.filter((each) => !isPicture(each)), ...entries.filter(isPicture)]) {
    const name = below === '' ? entry : `${below}/${entry}`;
    const from = join(old, name);
    if (name === 'charts' && lstatSync(from).isDirectory()) {
      handOverFiles(old, target, name, isOurs);
      isRemoved(from);
    } else if (isOurs(name)) {
      rmSync(from, { recursive: true, force: true });
    } else {
      // The place is missing for a moment while another run takes it; then the next try moves this.
      if (below !== '') makeBelow(target, below);
      isRenamed(from, join(target, free(target, name)), ['ENOENT']);
    }
  }
}

/** A name that nothing in a folder has yet. */
function free(folder: string, name: string): string {
  return existsSync(join(folder, name)) ? free(folder, `${name}.earlier`) : name;
}
