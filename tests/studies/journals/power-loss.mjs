/**
 * Loaded before the program (`node --import`): the supply is lost at one of the moments at which it touches a file of its
 * folder. What then lies on the disk is what was synced, and of all else something or nothing, by chance:
 *   - a name stands as when the folder was last synced, or as it does now;
 *   - a file holds what was in it when it was last synced; what was written since is there, in part, as zeros, or not at all.
 * That is what POSIX promises and no more. LOSS_FOLDER names the folder, LOSS_MOMENT the moment: a number, or the last word
 * of what is done; LOSS_SEED the chance; with LOSS_KEEPS=all nothing is lost but the process. Without a moment the moments are written to LOSS_LOG.
 */

import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { basename, dirname, join, resolve } from 'node:path';
import { isMainThread } from 'node:worker_threads';

const real = { ...fs };
const folder = resolve(process.env.LOSS_FOLDER);
const wanted = process.env.LOSS_MOMENT ?? '';
/** Of open files: path. */
const paths = new Map();
/** By file number of the system: what was synced. */
const synced = new Map();
/** Names as the folder was last synced, with file numbers. */
let names = new Map();
let moments = 0;

/** A linear congruential generator (Knuth, MMIX): good enough to choose with. */
let state = BigInt(process.env.LOSS_SEED ?? '1');
function chance() {
  state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
  return Number(state >> 11n) / 2 ** 53;
}

const isOurs = (path) => path !== undefined && dirname(path) === folder;

function moment(does, path) {
  if (!isOurs(path)) return;
  moments += 1;
  const text = `${does} ${basename(path)}`;
  if (wanted === String(moments) || wanted === text) {
    if (process.env.LOSS_KEEPS !== 'all') loseContents();
    process.kill(process.pid, 'SIGKILL');
    for (;;);
  }
  if (wanted === '') real.appendFileSync(process.env.LOSS_LOG, `${text}\n`);
}

function namesNow() {
  const found = new Map();
  for (const name of real.readdirSync(folder)) found.set(name, real.statSync(join(folder, name)).ino);
  return found;
}

/** What a file may hold after the loss. */
function leftOf(now, safe) {
  if (now === undefined) return safe ?? Buffer.alloc(0);
  const grown = safe === undefined || now.subarray(0, safe.length).equals(safe);
  const kind = chance();
  if (kind < 0.25) return now;
  if (!grown || kind < 0.5) return safe ?? Buffer.alloc(0);
  const from = safe?.length ?? 0;
  const to = from + Math.floor(chance() * (now.length - from + 1));
  return kind < 0.75
    ? now.subarray(0, to)
    : Buffer.concat([now.subarray(0, to), Buffer.alloc(now.length - to)]);
}

function loseContents() {
  const now = namesNow();
  const contents = new Map();
  for (const [name, file] of now) contents.set(file, real.readFileSync(join(folder, name)));
  const left = new Map();
  for (const name of new Set([...names.keys(), ...now.keys()])) {
    const file = (chance() < 0.5 ? now : names).get(name);
    if (file !== undefined) left.set(name, leftOf(contents.get(file), synced.get(file)));
  }
  for (const name of now.keys()) real.rmSync(join(folder, name));
  // A machine does not start again within the seconds in which a lock without a text is respected.
  const earlier = Date.now() / 1000 - 60;
  for (const [name, content] of left) {
    real.writeFileSync(join(folder, name), content);
    real.utimesSync(join(folder, name), earlier, earlier);
  }
}

function watchFiles() {
  fs.openSync = (path, ...rest) => {
    const file = real.openSync(path, ...rest);
    paths.set(file, resolve(String(path)));
    // Numbers of files are used again; of a new one nothing is safe.
    const { ino, size } = real.fstatSync(file);
    if (size === 0) synced.delete(ino);
    return file;
  };
  fs.closeSync = (file) => {
    paths.delete(file);
    real.closeSync(file);
  };
  fs.writeSync = (file, ...rest) => {
    moment('write', paths.get(file));
    return real.writeSync(file, ...rest);
  };
  fs.ftruncateSync = (file, length) => {
    moment('cut', paths.get(file));
    real.ftruncateSync(file, length);
  };
  fs.fsyncSync = (file) => {
    const path = paths.get(file);
    moment('sync', path);
    real.fsyncSync(file);
    if (path === folder) names = namesNow();
    else if (isOurs(path)) synced.set(real.fstatSync(file).ino, real.readFileSync(path));
  };
  fs.renameSync = (from, to) => {
    moment('rename', resolve(to));
    real.renameSync(from, to);
  };
  fs.rmSync = (path, ...rest) => {
    moment('remove', resolve(path));
    real.rmSync(path, ...rest);
  };
  syncBuiltinESMExports();
}

if (isMainThread) {
  watchFiles();
  // What is done stays done, too.
  process.on('exit', () => moment('end', join(folder, 'run')));
}
