/**
 * Files that outlast a lost supply. A rename is atomic, but says nothing of when the content reaches the disk, and a
 * new name may be lost though its content is safe. So: write under another name, sync the content, rename, sync the
 * folder (POSIX fsync and rename; Pillai et al., "All File Systems Are Not Created Equal", OSDI 2014).
 *
 * The other name says whose part it is, `.sweep.csv.echocone-1234.part`; a part whose process has ended is cleared by
 * the next run in its folder.
 */

import { closeSync, fsyncSync, openSync, readdirSync, renameSync, rmSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { isRunning } from './running-process.ts';

const PART = /^\..+\.echocone-(\d+)\.part$/;

/** The other name of a file while this process writes it. */
export function partOf(path: string): string {
  return join(dirname(path), `.${basename(path)}.echocone-${process.pid}.part`);
}

/** Puts a file whole in the place of whatever stands there. On failure nothing is left but what stood there. */
export function writeDurably(path: string, pieces: Iterable<string | Uint8Array>): void {
  const part = partOf(path);
  try {
    const file = openSync(part, 'w');
    try {
      for (const piece of pieces) writeFully(file, piece);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(part, path);
  } catch (error) {
    rmSync(part, { force: true });
    throw named(error, path);
  }
  syncFolder(dirname(path));
}

/** Writes all of it: the system may take less than it is given. */
export function writeFully(file: number, content: string | Uint8Array): void {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  for (let written = 0; written < bytes.length; ) written += writeSync(file, bytes, written);
}

/** Makes names in a folder outlast a lost supply. Some systems cannot sync a folder. */
export function syncFolder(path: string): void {
  try {
    const folder = openSync(path, 'r');
    try {
      fsyncSync(folder);
    } finally {
      closeSync(folder);
    }
  } catch {}
}

/** Clears parts that broken-off runs left in a folder, of one file if it is named. */
export function clearParts(folder: string, of?: string): void {
  for (const name of readdirSync(folder)) {
    const owner = PART.exec(name)?.[1];
    if (owner === undefined || (of !== undefined && !name.startsWith(`.${of}.echocone-`))) continue;
    if (Number(owner) !== process.pid && isRunning(Number(owner))) continue;
    rmSync(join(folder, name), { force: true });
  }
}

/** A file system's error with the file that was meant, which errors of open files lack. */
export function named(error: unknown, path: string): unknown {
  return error instanceof Error && 'syscall' in error ? Object.assign(error, { path }) : error;
}
