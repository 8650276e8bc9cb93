import {
  accessSync,
  chmodSync,
  closeSync,
  constants,
  existsSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
} from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { EXIT, Failure, systemCode, systemReason } from '../scenario/failure.js';
import { leftoversBeside, neighbourOf } from '../execution/machine/neighbours.js';
import { handOver, takePlace } from './take-place.js';
import { uninterrupted } from './uninterrupted.js';
import { type FileContent, keepNames, writeNewFile } from '../execution/machine/whole-file.js';

/** How the summary of every report begins. The rest is not read: it may be as long as the plan has images. */
const HEAD = /^\s*\{\s*"format"\s*:\s*"swap-or-hop /;
const HEAD_BYTES = 1024;
/** More often than another run comes in between. */
const MOST_LOOKS = 50;

/** Whether a folder holds a report of this program. */
function isReport(folder: string): boolean {
  try {
    const descriptor = openSync(join(folder, 'summary.json'), 'r');
    try {
      const head = Buffer.alloc(HEAD_BYTES);
      return HEAD.test(head.toString('utf8', 0, readSync(descriptor, head)));
    } finally {
      closeSync(descriptor);
    }
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
    return false;
  }
}

/**
 * Refuses a place where a report must not go, before any work is done for it: a file, a folder with something else in it, one
 * that somebody stands in, or one in which nothing may be written. What runs before left half-done beside it is cleared up.
 */
export function checkOutputFolder(folder: string): void {
  try {
    const target = placeOf(folder);
    if (isLinkToNothing(folder))
      throw new Failure(`${folder} is a broken link; remove it, or name another folder`, EXIT.failed);
    uninterrupted(() => {
      clearUp(target);
    });
    const refusal = refusalOf(target);
    if (refusal !== null) throw new Failure(`${folder} ${refusal}`);
    accessSync(nearestThere(dirname(target)), constants.W_OK | constants.X_OK);
  } catch (error) {
    throw new Failure(`${folder} cannot be written: ${systemReason(error)}`, EXIT.failed);
  }
}

function isLinkToNothing(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true && !existsSync(path);
}

/** The folder itself, or the one above it in which it would have to be made. */
function nearestThere(folder: string): string {
  return existsSync(folder) ? folder : nearestThere(dirname(folder));
}

/** What stands against a report in a place, in words that follow upon its name; null where nothing does. */
function refusalOf(target: string): string | null {
  let refusal: string | null = null;
  // While another run puts its report there, the place is missing for a moment, and may be so between two questions.
  for (let looks = 0; looks < MOST_LOOKS; looks += 1) {
    refusal = refusalNow(target);
    if (refusal === null) break;
  }
  return refusal;
}

function refusalNow(target: string): string | null {
  const found = statSync(target, { throwIfNoEntry: false });
  if (found === undefined) return null;
  if (!found.isDirectory()) return 'is a file; choose another folder with --out';
  if (isInside(target, realpathSync('.')))
    return 'is the folder that you are in, or holds it; name a folder in it with --out';
  return isReport(target) || entriesOf(target).length === 0
    ? null
    : 'is not empty and holds no earlier report of this program; choose another folder with --out';
}

/** What a folder holds; nothing where it is not there. */
function entriesOf(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return [];
    throw error;
  }
}

function isInside(folder: string, place: string): boolean {
  const way = relative(folder, place);
  return !isAbsolute(way) && !/^\.\.(?:[/\\]|$)/.test(way);
}

function placeOf(folder: string): string {
  try {
    return realpathSync(folder);
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return resolve(folder);
    throw error;
  }
}

/** Puts back a report that a killed run had set aside, gives its reader's own files to the one that came for it, and takes away the rest. */
function clearUp(target: string): void {
  for (const { path, state } of leftoversBeside(target)) {
    try {
      if (state === 'writing') rmSync(path, { recursive: true, force: true });
      else if (existsSync(target)) handOver(path, target);
      else renameSync(path, target);
    } catch (error) {
      // It is in nobody's way; who cannot write here either is told so when the report comes.
      if (systemCode(error) === undefined) throw error;
    }
  }
}

/**
 * Writes a report so that its folder is complete or as it was before: into a neighbour first, which then takes its place.
 * An earlier report is replaced; what a person laid beside it stays, though several runs write here at once.
 */
export function writeOutputFolder(folder: string, files: ReadonlyMap<string, FileContent>): void {
  checkOutputFolder(folder);
  const target = placeOf(folder);
  const fresh = neighbourOf(target, 'writing');
  const made = makeFolder(folder, dirname(target));
  try {
    fill(fresh, files);
    const before = statSync(target, { throwIfNoEntry: false });
    if (before !== undefined) chmodSync(fresh, before.mode & 0o7777);
    uninterrupted(() => {
      for (const old of takePlace(fresh, target)) handOver(old, target);
    });
    keepNames(dirname(target));
  } catch (error) {
    rmSync(fresh, { recursive: true, force: true });
    if (made !== null) removeEmpty(dirname(target), dirname(made));
    throw new Failure(`${folder} cannot be written: ${systemReason(error)}`, EXIT.failed);
  }
}

/** @returns the first folder that had to be made, or null */
function makeFolder(asked: string, folder: string): string | null {
  try {
    return mkdirSync(folder, { recursive: true }) ?? null;
  } catch (error) {
    throw new Failure(`${asked} cannot be written: ${systemReason(error)}`, EXIT.failed);
  }
}

/** Takes away folders that hold nothing, from `folder` up to below `end`. */
function removeEmpty(folder: string, end: string): void {
  try {
    for (let each = folder; each !== end; each = dirname(each)) rmdirSync(each);
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
  }
}

function fill(folder: string, files: ReadonlyMap<string, FileContent>): void {
  const folders = new Set([folder]);
  mkdirSync(folder);
  for (const [name, content] of files) {
    const file = join(folder, name);
    mkdirSync(dirname(file), { recursive: true });
    folders.add(dirname(file));
    writeNewFile(file, content);
  }
  for (const each of folders) keepNames(each);
}
