/**
 * Every change that a sweep advises, re-run as a user would by `--set`, against what it promised. Bounds: torque where it is
 * meant to help at most 1 % below before; promised torque within 2 %, promised edges within 150 rpm; a band that was to move
 * moves by 0.7 to 1.4 of what was promised.
 *
 * What is done is kept engine by engine and taken up again: `--only NAME` does one engine, `--fresh` does it again, and with
 * neither all that is missing. `--cell 5mm` is the usual mesh. `--cost` also times each sweep without its advice.
 */

import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { subjects } from './engines/subjects.mjs';
import { commitNow, echocone, flag, folderOf, keep, readJson } from './keep.mjs';

const cell = flag('--cell', '5mm');
const given = (name) => process.argv.includes(name);
/** Times that more speeds are run where an edge is not yet between two neighbours. */
const WIDER = 3;

function swept(file, name, set, ...more) {
  const out = folderOf(name);
  const changes = set.flatMap((text) => ['--set', text]);
  const sweep = [
    'sweep',
    file,
    '--cell',
    cell,
    '--out',
    out,
    '--overwrite',
    '--quiet',
    '--threads',
    flag('--threads', '2'),
  ];
  const seconds = echocone(...sweep, ...changes, ...more);
  return { ...readJson(join(out, 'sweep.json')), seconds };
}

/** Whether an edge lies between two neighbouring speeds of the sweep, and so is known. */
function isBetween(rows, edge, step) {
  const speeds = rows.map(({ speed_rpm }) => speed_rpm);
  const below = Math.max(...speeds.filter((speed) => speed <= edge));
  const above = Math.min(...speeds.filter((speed) => speed > edge));
  return Number.isFinite(below) && Number.isFinite(above) && above - below <= step && edge > speeds[0];
}

/** The changed pipe at the speed where it is meant to help and about the edges of its landing, at the speeds of the base's sweep. */
function changed(name, file, { rows: all }, { set, promises, for: purpose }) {
  const speeds = all.map(({ speed_rpm }) => speed_rpm);
  const step = speeds[1] - speeds[0];
  const edges = [promises.lands_from_rpm, promises.lands_to_rpm].filter((edge) => edge !== null);
  for (let wide = 1; ; wide++) {
    const wanted = speeds.filter(
      (speed) => speed === promises.at_rpm || edges.some((edge) => Math.abs(speed - edge) <= wide * step),
    );
    const run = swept(file, `${name}-${purpose}`, set, '--no-advice', '--rpm', wanted.join());
    const found = [run.band.lands_from_rpm, run.band.lands_to_rpm];
    const known = found.map((edge) => edge !== null && isBetween(run.rows, edge, step));
    if (known.every((one) => one) || wide === WIDER)
      return { run, edges: found.map((edge, k) => (known[k] ? edge : null)) };
  }
}

const torqueAt = ({ rows }, speed) => rows.find((row) => row.speed_rpm === speed)?.torque_nm ?? null;
const off = (is, promised) => (is === null || promised === null ? null : Math.round(is - promised));

function checked(name, file, base, advice) {
  const { torque_nm, at_rpm, lands_from_rpm, lands_to_rpm } = advice.promises;
  const { run: after, edges: ends } = changed(name, file, base, advice);
  const [was, is] = [torqueAt(base, at_rpm), torqueAt(after, at_rpm)];
  const edges = [
    { promised: lands_from_rpm, is: ends[0], was: base.band.lands_from_rpm },
    { promised: lands_to_rpm, is: ends[1], was: base.band.lands_to_rpm },
  ];
  const moved = edges
    .filter((one) => one.promised !== null && one.is !== null && one.was !== null)
    .map((one) => (one.is - one.was) / (one.promised - one.was));
  const gainPercent = is === null || was === null ? null : 100 * (is / was - 1);
  const torqueOffPercent = is === null ? null : 100 * (is / torque_nm - 1);
  const edgesOff = edges.map((one) => off(one.is, one.promised));
  const isMove = advice.for === 'lower' || advice.for === 'higher';
  const failed = [
    gainPercent === null || gainPercent < -1 ? 'torque lost' : '',
    torqueOffPercent === null || Math.abs(torqueOffPercent) > 2 ? 'torque promised' : '',
    edges.some(({ promised, is: end }) => promised !== null && end === null) ? 'edges unknown' : '',
    edgesOff.some((by) => by !== null && Math.abs(by) > 150) ? 'edges promised' : '',
    isMove && moved.some((ratio) => ratio < 0.7 || ratio > 1.4) ? 'move' : '',
  ].filter((one) => one !== '');
  const { for: purpose, set, cell: torqueCell, edge_cell: edgeCell } = advice;
  const run = { for: purpose, set, cell: torqueCell, edgeCell, at_rpm, was, promised: torque_nm, is };
  return { ...run, gainPercent, torqueOffPercent, edges, edgesOff, moved, failed };
}

function studied({ name, file }) {
  const base = swept(file, name, []);
  const plain = given('--cost') ? swept(file, `${name}-plain`, [], '--no-advice').seconds : null;
  const { unadvised, band } = base;
  return {
    name,
    commit: commitNow(),
    band,
    secondsOver: plain === null || base.seconds === null ? null : base.seconds / plain - 1,
    advice: base.advice.map((one) => checked(name, file, base, one)),
    unadvised: unadvised.map(({ for: purpose, says }) => `${purpose}: ${says}`),
  };
}

const kept = (name) => join(folderOf('done'), `${name}.json`);
mkdirSync(folderOf('done'), { recursive: true });
for (const subject of subjects(flag('--only', null))) {
  const file = kept(subject.name);
  if (given('--fresh')) rmSync(file, { force: true });
  if (!existsSync(file)) writeFileSync(file, JSON.stringify(studied(subject)));
}
const results = subjects().flatMap(({ name }) => (existsSync(kept(name)) ? [readJson(kept(name))] : []));
const all = results.flatMap(({ advice }) => advice);
keep('advice', {
  cell,
  advised: all.length,
  failed: all.filter(({ failed }) => failed.length > 0).length,
  results,
});
