import type { Order } from '../../study/work/order.js';
import { Failure } from '../failure.js';
import { type AnsweredOrder } from '../../study/work/share.js';
import { keptFile, type KeptFile, openKept } from '../kept/kept-file.js';
import { orderKey } from '../kept/order-key.js';
import { partNames } from '../kept/part-names.js';
import { Broken } from '../kept/seal.js';
import { readBytes, sha256Of } from '../text-file.js';
import { aboutSchema, type ShardAbout } from './about.js';

const WANTED = { what: 'a shard', form: '', most: 2_000_000_000 } as const;
const ABOUT = 'swap-or-hop.shard';
const SCENARIO = 'swap-or-hop.scenario';

/** A whole shard file, as far as it is known without its numbers. */
export interface Shard {
  readonly file: string;
  readonly about: ShardAbout;
  /** Text of the scenario. */
  readonly scenario: string;
}

export function shardBytes(about: ShardAbout, scenario: string, answered: readonly AnsweredOrder[]): Uint8Array {
  const notes = { [ABOUT]: JSON.stringify(about), [SCENARIO]: scenario };
  return keptFile(
    notes,
    answered.map(({ order, answer }) => ({
      ...{ key: orderKey(order), from: order.from, to: order.to },
      ...{ strategies: partNames(order.play), answer },
    })),
    'small',
  );
}

/** Opens a shard and checks every byte of it; one that is none, is cut short or damaged is a failure that says so. */
export function openShard(file: string): Shard {
  const { notes } = opened(file);
  const about = aboutSchema.safeParse(jsonIn(notes[ABOUT]));
  if (!about.success)
    throw new Failure(
      `${file}: it is no shard, or one of another version of this program; take it away, or merge with that version`,
    );
  const scenario = notes[SCENARIO] ?? '';
  if (sha256Of(scenario) !== about.data.scenario.sha256)
    throw new Failure(`${file}: the scenario in it is not the one that it was made of`);
  return { file, about: about.data, scenario };
}

/** Reads the answers to stretches of an order, one after the other. */
export async function* answersTo(order: Order, { file }: Shard): AsyncGenerator<AnsweredOrder> {
  const { stretches, read } = opened(file);
  const key = orderKey(order);
  for (const [place, { key: its, from, to }] of stretches.entries()) {
    if (its !== key) continue;
    const answer = await read(place).catch((error: unknown) => {
      throw inWords(file, error);
    });
    yield { order: { ...order, from, to }, answer };
  }
}

function opened(file: string): KeptFile {
  try {
    return openKept(readBytes(file, WANTED));
  } catch (error) {
    throw inWords(file, error);
  }
}

function inWords(file: string, error: unknown): unknown {
  return error instanceof Broken
    ? new Failure(`${file}: this is no shard to be merged; ${error.message}; take it away, and make that shard again`)
    : error;
}

function jsonIn(text: string | undefined): unknown {
  try {
    return text === undefined ? null : JSON.parse(text);
  } catch {
    return null;
  }
}
