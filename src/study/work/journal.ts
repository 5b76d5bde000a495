/**
 * The journal of a long study: a file that is only ever appended to, one JSON line for each finished draft. A draft
 * counts as done once its line is on the disk (fsync), so that a process killed or a plug pulled at any moment costs
 * no more than the draft under way. The first line names the study by the fingerprint of its canonical JSON; a
 * journal of another study is refused. What follows the last whole line is the torn end of an unfinished write: it is
 * cut off and reported. A draft found twice counts once, the first time.
 */

import { closeSync, fsyncSync, ftruncateSync, openSync, readSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { fingerprintOf } from './canonical-json.ts';

const format = 1;
const lineFeed = 0x0a;
const pieceBytes = 1 << 16;

/** A journal that cannot be gone on with; the message says why and what to do. */
export class JournalError extends Error {
  override readonly name = 'JournalError';
  readonly exitCode = 6;
}

export interface Journal<Result> {
  /** Whether the draft is done. */
  has(draft: string): boolean;
  /** How many drafts are done. */
  readonly count: number;
  /** What was cut off the end of the file on opening [bytes]; 0: nothing. */
  readonly tornBytes: number;
  /** Writes a finished draft to the disk; false if it was there already. */
  append(draft: string, result: Result): boolean;
  close(): void;
}

interface Entry<Result> {
  readonly draft: string;
  readonly result: Result;
}

/**
 * Opens the journal at a path, making it if there is none. `found` gets every draft that is already done, in the
 * order of the file; the journal itself keeps only their names.
 */
export function openJournal<Result>(
  path: string,
  study: unknown,
  found: (draft: string, result: Result) => void = () => {},
): Journal<Result> {
  const fingerprint = fingerprintOf(study);
  const done = new Set<string>();
  const file = openSync(path, 'a+');
  try {
    const { whole, size } = readLines(file, (line, number) => {
      if (number === 1) checkHeader(parsed(path, line, number), fingerprint, path);
      else {
        const entry = checkedEntry<Result>(parsed(path, line, number), path, number);
        if (done.has(entry.draft)) return;
        done.add(entry.draft);
        found(entry.draft, entry.result);
      }
    });
    const header = { journal: format, study: fingerprint };
    if (whole === 0 && !JSON.stringify(header).startsWith(beginning(file, size))) throw damaged(path, 1);
    if (whole < size) ftruncateSync(file, whole);
    if (whole === 0) {
      writeLine(file, header);
      syncFolder(dirname(path));
    }
    return {
      has: (draft) => done.has(draft),
      get count() {
        return done.size;
      },
      tornBytes: size - whole,
      append(draft, result) {
        if (done.has(draft)) return false;
        writeLine(file, { draft, result });
        done.add(draft);
        return true;
      },
      close: () => closeSync(file),
    };
  } catch (error) {
    closeSync(file);
    throw error;
  }
}

/** Opens a journal by `open`; one that cannot be gone on with is first cleared away, where that is allowed. */
export function openOrClear<T>(open: () => T, clear: (() => void) | null): T {
  try {
    return open();
  } catch (error) {
    if (clear === null || !(error instanceof JournalError)) throw error;
    clear();
    return open();
  }
}

function writeLine(file: number, value: unknown): void {
  const bytes = Buffer.from(`${JSON.stringify(value)}\n`);
  for (let written = 0; written < bytes.length; ) written += writeSync(file, bytes, written);
  fsyncSync(file);
}

/** The first bytes of the file as text. */
function beginning(file: number, bytes: number): string {
  const text = Buffer.alloc(Math.min(bytes, pieceBytes));
  return text.toString('utf8', 0, readSync(file, text, 0, text.length, 0));
}

/** Without this a new file's name may be lost though its content is safe. Some systems cannot sync a folder. */
function syncFolder(path: string): void {
  try {
    const folder = openSync(path, 'r');
    fsyncSync(folder);
    closeSync(folder);
  } catch {}
}

/** Reads whole lines piece by piece; returns the bytes that they take and the size of the file. */
function readLines(
  file: number,
  take: (line: string, number: number) => void,
): { whole: number; size: number } {
  const piece = Buffer.alloc(pieceBytes);
  let pending: Buffer[] = [];
  let whole = 0;
  let size = 0;
  let number = 0;
  for (;;) {
    const count = readSync(file, piece, 0, pieceBytes, size);
    if (count === 0) return { whole, size };
    let from = 0;
    for (
      let end = piece.indexOf(lineFeed, from);
      end >= 0 && end < count;
      end = piece.indexOf(lineFeed, from)
    ) {
      const line = Buffer.concat([...pending, piece.subarray(from, end)]).toString('utf8');
      pending = [];
      from = end + 1;
      number += 1;
      take(line, number);
      whole = size + from;
    }
    if (from < count) pending.push(Buffer.from(piece.subarray(from, count)));
    size += count;
  }
}

function parsed(path: string, line: string, number: number): unknown {
  try {
    return JSON.parse(line);
  } catch {
    throw damaged(path, number);
  }
}

function checkHeader(header: unknown, fingerprint: string, path: string): void {
  if (typeof header !== 'object' || header === null || !('journal' in header) || !('study' in header)) {
    throw damaged(path, 1);
  }
  if (header.journal !== format) {
    throw new JournalError(
      `${path} was written by another version of echocone. Choose another folder with --out.`,
    );
  }
  if (header.study !== fingerprint) {
    throw new JournalError(
      `${path} is the journal of another study, or of this one before its files or flags were changed. ` +
        'Choose another folder with --out, or move that journal away to start over.',
    );
  }
}

function checkedEntry<Result>(entry: unknown, path: string, number: number): Entry<Result> {
  const named = typeof entry === 'object' && entry !== null && 'draft' in entry && 'result' in entry;
  if (!named || typeof entry.draft !== 'string') throw damaged(path, number);
  return entry as Entry<Result>;
}

function damaged(path: string, number: number): JournalError {
  return new JournalError(
    `${path}, line ${number}: this is no line of a journal; the file was changed or the disk has lost data. ` +
      'Put it right or move it away to start over.',
  );
}
