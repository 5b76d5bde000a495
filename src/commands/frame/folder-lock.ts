/**
 * One run at a time in a folder. The lock is a file that names its holder: process, when that began, machine, time. It is
 * written under another name and then linked to its own, which a file system does in one step and only if there is none.
 * Where files cannot be linked it is made first and written a moment later, so one without text is nobody's only after a
 * while. A lock whose holder has ended is stale and taken over; two that find it so at once agree by a folder, which one of
 * them can make.
 *
 * On another machine (a folder on the network) a holder cannot be looked for, and counts as there.
 */

import {
  closeSync,
  linkSync,
  mkdirSync,
  openSync,
  readFileSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { named, partOf } from '../../study/work/durable-file.ts';
import { beganAt, isRunning } from '../../study/work/running-process.ts';
import { FileError, isSystemError } from './exit-codes.ts';
import { plainText } from './plain-text.ts';

export const LOCK = '.echocone.lock';

interface Holder {
  readonly process: number;
  readonly began: number | null;
  readonly machine: string;
  readonly since: string;
}

/** Whoever makes a lock, or takes a stale one over, has done so within this time [ms]. */
const TAKING = 5_000;

const held = new Set<string>();

/** Takes the lock of a folder; it is held until the process ends or lets it go. @throws FileError where it is held */
export function lockFolder(folder: string): void {
  const path = join(folder, LOCK);
  if (held.has(path)) return;
  for (let tries = 0; !made(path); tries += 1) {
    const text = textOf(path);
    if (text === null) continue;
    const holder = holderOf(text);
    if (tries > 2 || (holder === null ? isNew(path) : isThere(holder))) throw inUse(folder, holder);
    takeAway(path, text);
  }
  held.add(path);
}

/** Lets the lock of a folder go, or all that this process holds. */
export function unlockFolders(folder?: string): void {
  for (const path of folder === undefined ? [...held] : [join(folder, LOCK)]) {
    if (!held.delete(path)) continue;
    try {
      if (holderOf(textOf(path) ?? '')?.process === process.pid) rmSync(path, { force: true });
    } catch {
      // The next run finds it stale.
    }
  }
}

process.on('exit', () => unlockFolders());

/** Makes the lock; false: there is one. */
function made(path: string): boolean {
  const holder: Holder = {
    process: process.pid,
    began: beganAt(process.pid),
    machine: hostname(),
    since: new Date().toISOString(),
  };
  const text = JSON.stringify(holder);
  const part = partOf(path);
  try {
    writeNew(part, 'w', text);
    linkSync(part, path);
    return true;
  } catch (error) {
    if (!isSystemError(error)) throw error;
    if (error.code === 'EEXIST') return false;
    if (error.syscall !== 'link') throw named(error, path);
    return madeWithoutLinks(path, text);
  } finally {
    rmSync(part, { force: true });
  }
}

/** Where a file cannot have two names. */
function madeWithoutLinks(path: string, text: string): boolean {
  try {
    writeNew(path, 'wx', text);
    return true;
  } catch (error) {
    if (isSystemError(error) && error.code === 'EEXIST') return false;
    throw named(error, path);
  }
}

/** Writes a small file; where that fails, as on a full disk, nothing of it is left. */
function writeNew(path: string, how: 'w' | 'wx', text: string): void {
  const file = openSync(path, how);
  try {
    writeSync(file, text);
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
}

function textOf(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    if (isSystemError(error) && error.code === 'ENOENT') return null;
    throw error;
  }
}

/** Null: the text names nobody, as when its writer was ended within it. */
function holderOf(text: string): Holder | null {
  try {
    const { process: pid, began = null, machine, since } = JSON.parse(text);
    return typeof pid === 'number'
      ? { process: pid, began, machine: String(machine), since: String(since) }
      : null;
  } catch {
    return null;
  }
}

function isThere({ process: pid, began, machine }: Holder): boolean {
  if (machine !== hostname()) return true;
  return isRunning(pid) && (began === null || beganAt(pid) === null || beganAt(pid) === began);
}

/** Whether a lock without a name may be one whose maker is about to write it. */
function isNew(path: string): boolean {
  try {
    return Date.now() - statSync(path).mtimeMs < TAKING;
  } catch {
    return true;
  }
}

/** Takes a stale lock away, if it still is the one that was read. */
function takeAway(path: string, text: string): void {
  const taking = `${path}.taking`;
  try {
    mkdirSync(taking);
  } catch (error) {
    if (!isSystemError(error) || error.code !== 'EEXIST') throw error;
    if (Date.now() - statSync(taking).mtimeMs > TAKING) rmdirSync(taking);
    return;
  }
  try {
    if (textOf(path) === text) rmSync(path, { force: true });
  } finally {
    rmdirSync(taking);
  }
}

function inUse(folder: string, holder: Holder | null): FileError {
  const by =
    holder === null
      ? 'another run'
      : `process ${holder.process} on ${plainText(holder.machine)} since ${plainText(holder.since)}`;
  return new FileError(
    `${folder} is in use by ${by}. Wait for it, name another folder with --out, or, if that run is known to have ended, ` +
      `remove ${join(folder, LOCK)}.`,
  );
}
