/**
 * The folder that a command writes into. It is made when needed; one that holds something already is refused unless
 * the user says --overwrite or the command goes on with its own journal there. One run at a time writes into it
 * (`folder-lock.ts`). Only files that the command writes are replaced, each at once by renaming, so that a reader never
 * sees half a file.
 */

import { mkdirSync, readdirSync, rmdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { clearParts, writeDurably } from '../../study/work/durable-file.ts';
import { FileError, isSystemError, systemErrorText } from './exit-codes.ts';
import { LOCK, lockFolder, unlockFolders } from './folder-lock.ts';

export interface RunFolder {
  readonly path: string;
  /** Whether the file is there already. */
  has(name: string): boolean;
  /** Full path of a file in the folder. */
  file(name: string): string;
  /** Writes a file whole. */
  write(name: string, content: string | Uint8Array): void;
  /** Of a run that came to nothing: takes the folder away if it was made for it and is empty. */
  giveUp(): void;
}

export interface RunFolderRequest {
  /** Folder that the user named with --out; otherwise `runs/<name>-<time>`. */
  readonly out?: string | undefined;
  /** What the run is of: a case's name or its file. */
  readonly name: string;
  readonly overwrite: boolean;
  /** A folder that holds this file is gone on with, `journal.jsonl`. */
  readonly resumes?: string;
  readonly now?: Date;
}

export function openRunFolder(request: RunFolderRequest): RunFolder {
  const path = request.out ?? freshFolder(request.name, request.now ?? new Date());
  const made = asFileError(() => makeFolder(path));
  asFileError(() => lockFolder(path));
  try {
    refuseOthers(path, request);
  } catch (error) {
    unlockFolders(path);
    throw error;
  }
  return {
    path,
    has: (name) => asFileError(() => readdirSync(path)).includes(name),
    file: (name) => join(path, name),
    write: (name, content) => writeWhole(join(path, name), content),
    giveUp: () => {
      unlockFolders(path);
      try {
        if (made) rmdirSync(path);
      } catch {
        // It holds something, which is kept.
      }
    },
  };
}

/** Clears what broken-off runs left, and refuses a folder that holds anything else, unless it may be written into. */
function refuseOthers(path: string, request: RunFolderRequest): void {
  asFileError(() => clearParts(path));
  const present = asFileError(() => readdirSync(path)).filter((name) => !name.includes(LOCK));
  const resumed = request.resumes !== undefined && present.includes(request.resumes);
  if (present.length > 0 && !request.overwrite && !resumed) {
    throw new FileError(
      `${path} holds ${present.length === 1 ? 'a file' : `${present.length} files`} already. ` +
        'Name another folder with --out, or add --overwrite to replace what this command writes.',
    );
  }
}

/**
 * Makes a folder and what is missing above it, one by one; false if it was there. (Node's own `recursive` never ends
 * where a folder can be made nowhere, as below /proc.)
 */
function makeFolder(path: string): boolean {
  if (isFolder(path)) return false;
  const above = dirname(path);
  if (above !== path) makeFolder(above);
  try {
    mkdirSync(path);
    return true;
  } catch (error) {
    if (isSystemError(error) && error.code === 'EEXIST') {
      // Another run may have made it in the meantime.
      if (isFolder(path)) return false;
      throw new FileError(`${path}: there is a file of this name, so no folder can be made.`);
    }
    if (isSystemError(error) && error.code === 'ENOENT')
      throw new FileError(`${path}: no folder can be made there.`);
    throw error;
  }
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}

/** Writes a file whole, safely on the disk before it takes the place of the old one. @throws FileError */
export function writeWhole(path: string, content: string | Uint8Array): void {
  asFileError(() => writeDurably(path, [content]));
}

/** A name fit for a file: letters, digits, hyphens. */
export function fileNameOf(text: string): string {
  const plain = text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const slug = plain.replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '');
  // A long name ends with a whole word, if it has any.
  const short =
    slug.length > 60
      ? slug
          .slice(0, 61)
          .replace(/-[^-]*$/, '')
          .slice(0, 60)
      : slug;
  return short || 'run';
}

function freshFolder(name: string, now: Date): string {
  const local = new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString();
  const wanted = join('runs', `${fileNameOf(name)}-${local.slice(0, 19).replaceAll(':', '')}`);
  for (let path = wanted, again = 2; ; path = `${wanted}-${again}`, again += 1) {
    try {
      if (readdirSync(path).length === 0) return path;
    } catch {
      return path;
    }
  }
}

function asFileError<T>(action: () => T): T {
  try {
    return action();
  } catch (error) {
    if (isSystemError(error)) throw new FileError(systemErrorText(error));
    throw error;
  }
}
