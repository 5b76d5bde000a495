/**
 * The journal of a long study: a file that is only ever appended to, one line for each finished draft. A draft counts as
 * done once its line is on the disk (fsync), so that a process killed or a plug pulled at any moment costs no more than
 * the draft under way. The first line says what the study is, by kind, name and program, and names it by the fingerprint
 * of its canonical JSON; a journal of another study is refused.
 *
 * Every line carries a checksum (`journal-line.ts`). One that does not pass is dropped and its work done again, be it
 * the torn end of an unfinished write or damage within; a file of which nothing passes is not taken for a journal and is
 * left alone. A draft found twice counts once, the first time.
 */

import { closeSync, fsyncSync, ftruncateSync, openSync, readSync } from 'node:fs';
import { dirname } from 'node:path';
import { quoted } from '../../case/text/printable.ts';
import { fingerprintOf } from './canonical-json.ts';
import { named, syncFolder, writeDurably, writeFully } from './durable-file.ts';
import { type Extent, openedLine, readLines, sealedLine, seedOf } from './journal-line.ts';

/** Of the lines' form. */
const VERSION = 2;

/** A journal that cannot be gone on with; the message says why and what to do. */
export class JournalError extends Error {
  override readonly name = 'JournalError';
  readonly exitCode = 6;
}

/** What a journal is of. The name is for whoever reads the file; the rest makes the fingerprint. */
export interface JournalOf {
  readonly kind: string;
  readonly name: string;
  readonly program: string;
  /** Everything that results depend on. */
  readonly what: unknown;
}

export interface Journal<Result> {
  readonly fingerprint: string;
  /** Whether the draft is done. */
  has(draft: string): boolean;
  /** How many drafts are done. */
  readonly count: number;
  /** What was dropped on opening, in one sentence; empty: nothing. */
  readonly dropped: string;
  /** Writes a finished draft to the disk; false if it was there already. */
  append(draft: string, result: Result): boolean;
  close(): void;
}

/** SHA-256 of what a journal is of, in hexadecimal. */
export function studyFingerprint({ kind, program, what }: Omit<JournalOf, 'name'>): string {
  return fingerprintOf({ kind, program, what });
}

/**
 * Opens the journal at a path, making it if there is none. `found` gets every draft that is already done, in the
 * order of the file; the journal itself keeps only their names. A result that `found` cannot read, which it says by
 * false, is dropped like a damaged line.
 */
export function openJournal<Result>(
  path: string,
  of: JournalOf,
  found: (draft: string, result: Result) => unknown = () => {},
): Journal<Result> {
  const fingerprint = studyFingerprint(of);
  const seed = seedOf(fingerprint);
  const done = new Set<string>();
  const header = sealedLine(
    { journal: VERSION, kind: of.kind, name: of.name, program: of.program, study: fingerprint },
    0,
  );
  const kept: Extent[] = [];
  let headed = false;
  let damaged = 0;
  let file = openSync(path, 'a+');
  try {
    const { whole, size } = readLines(file, (line, number, extent) => {
      if (number === 1 && isHeader(line, fingerprint, path)) headed = true;
      else if (taken<Result>(openedLine(line, seed), done, found)) kept.push(extent);
      else damaged += 1;
    });
    const begun = whole === 0 && header.subarray(0, size).equals(beginning(file, size));
    if (!headed && kept.length === 0 && !begun) throw noJournal(path);
    if (damaged > 0 || (!headed && !begun)) {
      writeDurably(path, linesOf(file, header, kept));
      closeSync(file);
      file = openSync(path, 'a+');
    } else if (whole < size) ftruncateSync(file, whole);
    let length = [header.length, ...kept.map(({ from, to }) => to - from)].reduce(
      (sum, bytes) => sum + bytes,
    );
    if (begun) {
      length = 0;
      length = appended(file, path, header, length);
      syncFolder(dirname(path));
    }
    return {
      fingerprint,
      has: (draft) => done.has(draft),
      get count() {
        return done.size;
      },
      dropped: droppedText(damaged, size - whole),
      append(draft, result) {
        if (done.has(draft)) return false;
        length = appended(file, path, sealedLine({ draft, result }, seed), length);
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

/** A journal, and the results that it holds by the name of their draft; whoever appends one enters it here too. */
export interface KeptJournal<Result> {
  readonly journal: Journal<Result>;
  readonly done: Map<string, Result>;
}

/** Opens a journal with all that is done; `clear` makes way where it is of something else, null: it stays. */
export function openKeptJournal<Result>(
  path: string,
  of: JournalOf,
  clear: (() => void) | null,
): KeptJournal<Result> {
  return openOrClear(() => {
    const done = new Map<string, Result>();
    return { journal: openJournal<Result>(path, of, (draft, result) => void done.set(draft, result)), done };
  }, clear);
}

/** Whether a line is a finished draft that can be read; one that is there already is, and counts no second time. */
function taken<Result>(
  line: Readonly<Record<string, unknown>> | null,
  done: Set<string>,
  found: (draft: string, result: Result) => unknown,
): boolean {
  if (line === null || typeof line.draft !== 'string' || !('result' in line)) return false;
  if (done.has(line.draft)) return true;
  if (found(line.draft, line.result as Result) === false) return false;
  done.add(line.draft);
  return true;
}

/** Whether a line is the study's first. @throws JournalError where it is that of another study or version */
function isHeader(line: Buffer, fingerprint: string, path: string): boolean {
  const read = openedLine(line, 0);
  const otherVersion = read !== null && 'journal' in read && read.journal !== VERSION;
  if (otherVersion || /^\{"journal":\d+,"study":"[0-9a-f]{64}"\}$/.test(line.toString('latin1', 0, 120)))
    throw new JournalError(
      `${path} was written by another version of echocone. Choose another folder with --out.`,
    );
  if (read === null || !('journal' in read)) return false;
  if (read.study === fingerprint) return true;
  const [kind, name, program] = [read.kind, read.name, read.program].map((text) => String(text));
  throw new JournalError(
    `${path} is the journal of another study, or of this one before its files or flags were changed: ` +
      `${quoted(kind ?? '')} of ${quoted(name ?? '', 60)} by ${quoted(program ?? '')}. ` +
      'Choose another folder with --out, or move that journal away to start over.',
  );
}

/** Appends a line and syncs it; where that fails, as on a full disk, nothing of the line is left. */
function appended(file: number, path: string, line: Buffer, length: number): number {
  try {
    writeFully(file, line);
    fsyncSync(file);
    return length + line.length;
  } catch (error) {
    try {
      ftruncateSync(file, length);
    } catch {}
    throw named(error, path);
  }
}

/** The first line and those that are kept, read again from the file. */
function* linesOf(file: number, header: Buffer, kept: readonly Extent[]): Generator<Buffer> {
  yield header;
  for (const { from, to } of kept) {
    const line = Buffer.alloc(to - from);
    readSync(file, line, 0, line.length, from);
    yield line;
  }
}

/** The first bytes of the file. */
function beginning(file: number, bytes: number): Buffer {
  const text = Buffer.alloc(Math.min(bytes, 1 << 16));
  return text.subarray(0, readSync(file, text, 0, text.length, 0));
}

function droppedText(damaged: number, torn: number): string {
  const tornText = `ended in a torn line of ${torn} bytes`;
  if (damaged === 0)
    return torn === 0 ? '' : `The journal ${tornText}; it was dropped and its work is done again.`;
  const lines = damaged === 1 ? '1 damaged line' : `${damaged} damaged lines`;
  const many = damaged > 1 || torn > 0;
  return (
    `The journal had ${lines}${torn === 0 ? '' : ` and ${tornText}`}; ` +
    (many ? 'they were dropped and their work is done again.' : 'it was dropped and its work is done again.')
  );
}

function noJournal(path: string): JournalError {
  return new JournalError(
    `${path} does not begin as a journal does, and no line of it is as it was written: it is left as it is. ` +
      'Move it away to start over, or choose another folder with --out.',
  );
}
