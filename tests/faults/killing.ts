import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  watch,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { EXIT } from '../../src/scenario/failure.js';
import { root, swapOrHop } from '../support/command.js';
import { FEW_LIVES } from '../support/fitted-log.js';

/** A command that puts a new report in the place of an old one. */
export interface Deed {
  readonly name: string;
  /** Its arguments but for where its report goes, which is `report`, in a folder with `small.yaml` and `log.csv`. */
  readonly args: (seed: string) => readonly string[];
  /** Files beside the report that it may write. */
  readonly writes?: readonly string[];
  /** Commands whose files it needs. */
  readonly needs?: (seed: string) => readonly (readonly string[])[];
}

const SHARDS = [1, 2] as const;

export const DEEDS: readonly Deed[] = [
  { name: 'compare', args: (seed) => ['compare', 'small.yaml', '--replications', '20', '--seed', seed] },
  {
    name: 'tune',
    args: (seed) => ['tune', 'small.yaml', '--vary', 'rules.after=2 images, none', '--zone', '10 %', '--seed', seed],
  },
  {
    name: 'fit --into',
    args: (seed) => ['fit', 'log.csv', '--into', 'small.yaml', '--bootstrap', '3', '--seed', seed],
    writes: ['small.yaml'],
  },
  {
    name: 'merge',
    args: (seed) => ['merge', ...SHARDS.map((shard) => `shards of ${seed}/small.${shard}-of-2.shard`)],
    needs: (seed) =>
      SHARDS.map((shard) => {
        const what = ['compare', 'small.yaml', '--replications', '20', '--seed', seed];
        return [...what, '--shard', `${shard}/2`, '--out', `shards of ${seed}`, '--quiet'];
      }),
  },
];

/** What a person laid into the report's folder. */
const OWN = { 'letter.txt': 'To the committee', 'charts/mine.svg': '<svg/>', 'data/raw.csv': '1,2' };

const main = join(root, 'dist/cli/main.js');

/** Where a command is killed: after so many milliseconds, or so many after it has begun to write. */
export interface Moment {
  readonly after: number;
  readonly of: 'start' | 'writing';
}

interface Ended {
  readonly code: number | null;
  readonly stderr: string;
  readonly milliseconds: number;
}

function start(folder: string, deed: Deed, seed: string, signal?: NodeJS.Signals, moment?: Moment): Promise<Ended> {
  return new Promise((resolve) => {
    const began = performance.now();
    const args = [main, ...deed.args(seed), '--out', 'report', '--quiet'];
    const child = spawn(process.execPath, args, { cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] });
    let stderr = '';
    child.stderr.setEncoding('utf8').on('data', (part: string) => (stderr += part));
    const kill = (after: number) => setTimeout(() => child.kill(signal), after);
    const watcher = moment?.of === 'writing' ? watch(folder) : null;
    watcher?.once('change', () => kill(moment?.after ?? 0));
    if (moment?.of === 'start') kill(moment.after);
    child.on('close', (code) => {
      watcher?.close();
      resolve({ code, stderr, milliseconds: performance.now() - began });
    });
  });
}

/** All files below a folder, by name, as one digest each. */
function filesIn(folder: string, below = ''): ReadonlyMap<string, string> {
  return new Map(
    readdirSync(join(folder, below))
      .sort()
      .flatMap((entry): readonly (readonly [string, string])[] => {
        const name = join(below, entry);
        if (statSync(join(folder, name)).isDirectory()) return [...filesIn(folder, name)];
        return [
          [
            name,
            createHash('sha256')
              .update(readFileSync(join(folder, name)))
              .digest('hex'),
          ],
        ];
      }),
  );
}

function digest(files: ReadonlyMap<string, string>, wanted: (name: string) => boolean): string {
  return [...files]
    .filter(([name]) => wanted(name))
    .map(([name, hash]) => `${name} ${hash}`)
    .join('\n');
}

const isOwn = (name: string) => Object.keys(OWN).some((own) => name === join('report', own));
const reportOf = (files: ReadonlyMap<string, string>) =>
  digest(files, (name) => name.startsWith('report/') && !isOwn(name));
const ownOf = (files: ReadonlyMap<string, string>) => digest(files, isOwn);

/** Lines of either digest that are not in the other. */
function unlike(one: string, other: string): readonly string[] {
  const [here, there] = [one, other].map((text) => text.split('\n'));
  return [...here.filter((line) => !there.includes(line)), ...there.filter((line) => !here.includes(line))];
}

const hidden = (folder: string) => readdirSync(folder).filter((name) => name.startsWith('.'));

/** Whether what was written of a stopped run says so of itself, on its page. */
function isMarked(folder: string): boolean {
  const file = join(folder, 'report-stopped/report.html');
  return existsSync(file) && readFileSync(file, 'utf8').includes('interrupted');
}

/** What a folder looks like before and after a deed that nothing disturbs. */
export class Scene {
  readonly deed: Deed;
  readonly folder: string;
  #before: ReadonlyMap<string, string> = new Map();
  #after: ReadonlyMap<string, string> = new Map();
  /** Of the deed, undisturbed. */
  milliseconds = 0;

  /** @param folder an empty one, which is used up */
  constructor(deed: Deed, folder: string) {
    this.deed = deed;
    this.folder = folder;
  }

  async prepare(): Promise<void> {
    const first = this.#at('before');
    mkdirSync(first);
    cpSync(join(root, 'tests/support/small.yaml'), join(first, 'small.yaml'));
    writeFileSync(join(first, 'log.csv'), FEW_LIVES);
    for (const seed of ['before', 'after']) {
      for (const args of this.deed.needs?.(seed) ?? []) {
        const { code, stderr } = await swapOrHop(args, { cwd: first });
        if (code !== 0) throw new Error(`${args.join(' ')} failed: ${stderr}`);
      }
    }
    await this.#undisturbed(first, 'before');
    for (const [name, content] of Object.entries(OWN)) {
      mkdirSync(join(first, 'report', name, '..'), { recursive: true });
      writeFileSync(join(first, 'report', name), content);
    }
    this.#before = filesIn(first);
    cpSync(first, this.#at('after'), { recursive: true });
    this.milliseconds = await this.#undisturbed(this.#at('after'), 'after');
    this.#after = filesIn(this.#at('after'));
  }

  #at(name: string): string {
    return join(this.folder, name);
  }

  async #undisturbed(folder: string, seed: string): Promise<number> {
    const ended = await start(folder, this.deed, seed);
    if (ended.code !== 0) throw new Error(`${this.deed.name} cannot be done undisturbed: ${ended.stderr}`);
    return ended.milliseconds;
  }

  /** Kills the deed at a moment and does it again; gives what was found after the kill, throws where that is neither old nor new. */
  async kill(signal: NodeJS.Signals, moment: Moment): Promise<string> {
    const folder = this.#at('killed');
    rmSync(folder, { recursive: true, force: true });
    cpSync(this.#at('before'), folder, { recursive: true });
    const { code } = await start(folder, this.deed, 'after', signal, moment);
    const found = code === EXIT.terminated ? this.#stateOfStopped(folder) : this.#state(folder);
    const left = hidden(folder).length > 0 ? ', leftovers' : '';
    if (left === '' && found === 'old') return found;
    const again = await start(folder, this.deed, 'after');
    const files = filesIn(folder);
    const wrong = [
      ...(again.code === 0 ? [] : [`the next run ends with ${String(again.code)}: ${again.stderr}`]),
      ...(hidden(folder).length === 0 ? [] : [`the next run leaves ${hidden(folder).join(', ')}`]),
      ...unlike(reportOf(files), reportOf(this.#after)).map((line) => `the next run makes another report: ${line}`),
      ...(ownOf(files) === ownOf(this.#before) ? [] : ['the next run touches what is not its own']),
    ];
    if (wrong.length > 0) throw new Error(`${found}${left}, and ${wrong.join('; ')}`);
    return found + left;
  }

  /** SIGTERM may be answered by what is complete: fewer replications, or all of them without pictures, in a place of its own. */
  #stateOfStopped(folder: string): string {
    const state = this.#state(folder);
    return isMarked(folder) ? `${state}, and what was complete` : state;
  }

  #state(folder: string): string {
    const files = filesIn(folder);
    for (const [name, before] of this.#before) {
      if (name.startsWith('report/')) continue;
      const is = files.get(name);
      const isNew = this.deed.writes?.includes(name) === true && is === this.#after.get(name);
      if (is !== before && !isNew) throw new Error(`${name} is neither old nor new`);
    }
    // Between two renames, the old report lies whole under its hidden name, with all that a person laid into it.
    if (!readdirSync(folder).includes('report')) return 'set aside';
    const report = reportOf(files);
    if (report === reportOf(this.#before)) {
      if (ownOf(files) !== ownOf(this.#before)) throw new Error('something was taken out of the old report');
      return 'old';
    }
    if (report === reportOf(this.#after)) return 'new';
    throw new Error(`the report is neither old nor new: ${unlike(report, reportOf(this.#after)).join(', ')}`);
  }
}
