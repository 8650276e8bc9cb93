import { createHash } from 'node:crypto';

/** The name under which a file's checksum stands among the notes in its footer. */
export const SEAL = 'swap-or-hop.sha256';
/** What stands in its place while the checksum is computed. */
export const UNSEALED = '0'.repeat(64);

/** In Parquet's footer a value follows its name after the mark of a text (24) and its length. */
const BEFORE = Buffer.from(`${SEAL}\u0018${String.fromCharCode(UNSEALED.length)}`, 'latin1');
const MAGIC = Buffer.from('PAR1', 'latin1');

/** A file that is not what it should be; the message says how. */
export class Broken extends Error {
  override readonly name = 'Broken';
}

/** Puts the SHA-256 of a file's bytes, computed with zeros in its place, into the file. */
export function seal(bytes: Buffer): void {
  const place = placeOf(bytes);
  if (place === null) throw new Error('there is no place for a seal');
  bytes.write(checksum(bytes, place), place, 'latin1');
}

/** @throws Broken where it is no sealed file at all, where its end is missing, or where any byte is another one */
export function checkSeal(bytes: Buffer): void {
  if (!bytes.subarray(0, MAGIC.length).equals(MAGIC)) throw new Broken('it is no Parquet file');
  if (bytes.length < 2 * MAGIC.length || !bytes.subarray(-MAGIC.length).equals(MAGIC))
    throw new Broken('it is cut short: its end is missing');
  const place = placeOf(bytes);
  if (place === null) throw new Broken('it is a Parquet file of something else');
  if (bytes.toString('latin1', place, place + UNSEALED.length) !== checksum(bytes, place))
    throw new Broken('it is damaged: its bytes are not those of its checksum');
}

function placeOf(bytes: Buffer): number | null {
  const found = bytes.lastIndexOf(BEFORE);
  const place = found + BEFORE.length;
  return found === -1 || place + UNSEALED.length > bytes.length ? null : place;
}

function checksum(bytes: Buffer, place: number): string {
  return createHash('sha256')
    .update(bytes.subarray(0, place))
    .update(UNSEALED)
    .update(bytes.subarray(place + UNSEALED.length))
    .digest('hex');
}
