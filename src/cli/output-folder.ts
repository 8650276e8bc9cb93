import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { EXIT, Failure, systemReason } from './failure.js';

/** Whether a folder holds a report of this program. */
function isReport(folder: string): boolean {
  try {
    const summary: unknown = JSON.parse(readFileSync(join(folder, 'summary.json'), 'utf8'));
    const format = typeof summary === 'object' && summary !== null && 'format' in summary ? summary.format : null;
    return typeof format === 'string' && format.startsWith('swap-or-hop ');
  } catch {
    return false;
  }
}

/** Refuses a place where a report must not go: a file, or a folder with something else in it. */
export function checkOutputFolder(folder: string): void {
  if (!existsSync(folder)) return;
  if (!statSync(folder).isDirectory()) throw new Failure(`${folder} is a file; choose another folder with --out`);
  if (readdirSync(folder).length > 0 && !isReport(folder)) {
    throw new Failure(
      `${folder} is not empty and holds no earlier report of this program; choose another folder with --out`,
    );
  }
}

function fill(folder: string, files: ReadonlyMap<string, string>): void {
  for (const [name, content] of files) {
    const file = join(folder, name);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, content);
  }
}

const CHART = /\.(svg|vl\.json)$/;

/** What a person laid beside an earlier report: notes, a letter. Charts of other versions are not kept. */
function othersFiles(folder: string, files: ReadonlyMap<string, string>): string[] {
  const ours = new Set([...files.keys()].map((name) => name.split('/')[0]));
  return readdirSync(folder).filter((entry) => !ours.has(entry) && !CHART.test(entry));
}

/**
 * Writes a report so that its folder is complete or absent: into a neighbour first, which then takes its place.
 * An earlier report is replaced; what a person laid beside it stays.
 */
export function writeOutputFolder(folder: string, files: ReadonlyMap<string, string>): void {
  checkOutputFolder(folder);
  const target = existsSync(folder) ? realpathSync(folder) : resolve(folder);
  const neighbour = (state: string) => join(dirname(target), `.${basename(target)}.${process.pid}.${state}`);
  const [fresh, old] = [neighbour('unfinished'), neighbour('replaced')];
  try {
    mkdirSync(fresh, { recursive: true });
    fill(fresh, files);
    if (existsSync(target)) {
      const kept = othersFiles(target, files);
      renameSync(target, old);
      renameSync(fresh, target);
      for (const entry of kept) renameSync(join(old, entry), join(target, entry));
    } else {
      renameSync(fresh, target);
    }
  } catch (error) {
    if (existsSync(old) && !existsSync(target)) renameSync(old, target);
    throw new Failure(`${folder} cannot be written: ${systemReason(error)}`, EXIT.failed);
  } finally {
    for (const leftover of [fresh, old]) rmSync(leftover, { recursive: true, force: true });
  }
}

/** Writes one file so that it is complete or absent. */
export function writeWholeFile(file: string, content: string): void {
  const fresh = join(dirname(resolve(file)), `.${basename(file)}.${process.pid}.unfinished`);
  try {
    writeFileSync(fresh, content);
    renameSync(fresh, file);
  } catch (error) {
    throw new Failure(`${file} cannot be written: ${systemReason(error)}`, EXIT.failed);
  } finally {
    rmSync(fresh, { force: true });
  }
}
