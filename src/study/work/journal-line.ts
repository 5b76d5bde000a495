/**
 * A line of a journal: JSON whose first member is the checksum of what follows it, so that a line is believed only as it
 * was written. The checksum is CRC-32 (ISO 3309, as zlib has it) over the bytes behind it, begun with a number that
 * belongs to the study: a line of another journal does not pass.
 *
 *   {"crc":"1c291ca3","draft":"full 3","result":{…}}
 */

import { readSync } from 'node:fs';
import { crc32 } from 'node:zlib';

const LINE_FEED = 0x0a;
const PIECE = 1 << 16;
const HEAD = /^\{"crc":"([0-9a-f]{8})",$/;
const HEAD_BYTES = '{"crc":"00000000",'.length;

/** The number that checksums of a study's lines begin with. */
export function seedOf(fingerprint: string): number {
  return crc32(fingerprint);
}

/** The line with its checksum and line end. */
export function sealedLine(members: Readonly<Record<string, unknown>>, seed: number): Buffer {
  const rest = Buffer.from(JSON.stringify(members).slice(1));
  const sum = crc32(rest, seed).toString(16).padStart(8, '0');
  return Buffer.concat([Buffer.from(`{"crc":"${sum}",`), rest, Buffer.from('\n')]);
}

/** What a line holds; null: it is not as it was written. */
export function openedLine(line: Buffer, seed: number): Readonly<Record<string, unknown>> | null {
  const sum = HEAD.exec(line.toString('latin1', 0, HEAD_BYTES))?.[1];
  if (sum === undefined) return null;
  const rest = line.subarray(HEAD_BYTES);
  if (crc32(rest, seed) !== Number.parseInt(sum, 16)) return null;
  try {
    return JSON.parse(`{${rest.toString('utf8')}`);
  } catch {
    return null;
  }
}

export interface Extent {
  /** First byte, and the byte behind the line's end. */
  readonly from: number;
  readonly to: number;
}

/** Reads whole lines piece by piece; returns the bytes that they take and the size of the file. */
export function readLines(
  file: number,
  take: (line: Buffer, number: number, extent: Extent) => void,
): { readonly whole: number; readonly size: number } {
  const piece = Buffer.alloc(PIECE);
  let pending: Buffer[] = [];
  let whole = 0;
  let size = 0;
  let number = 0;
  for (;;) {
    const count = readSync(file, piece, 0, PIECE, size);
    if (count === 0) return { whole, size };
    const read = piece.subarray(0, count);
    let from = 0;
    for (let end = read.indexOf(LINE_FEED); end >= 0; end = read.indexOf(LINE_FEED, from)) {
      const line = Buffer.concat([...pending, read.subarray(from, end)]);
      pending = [];
      from = end + 1;
      number += 1;
      take(line, number, { from: whole, to: size + from });
      whole = size + from;
    }
    if (from < count) pending.push(Buffer.from(read.subarray(from)));
    size += count;
  }
}
