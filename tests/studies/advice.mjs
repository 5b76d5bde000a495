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
import { echocone, flag, folderOf, keep, readJson } from './keep.mjs';

const cell = flag('--cell', '5mm');
const given = (name) => process.argv.includes(name);
/** Steps of a sweep run beyond what was promised and what is, so that a band that lies elsewhere is seen. */
const BEYOND = 3;

function swept(file, name, set, ...more) {
  const out = folderOf(name);
  const changes = set.flatMap((text) => ['--set', text]);
  const sweep = ['sweep', file, '--cell', cell, '--out', out, '--overwrite', '--quiet'];
  const seconds = echocone(...sweep, ...changes, ...more);
  return { ...readJson(join(out, 'sweep.json')), seconds };
}

/** The speeds of a sweep about its band and a promised one. */
function about({ rows, band }, { at_rpm, lands_from_rpm, lands_to_rpm }) {
  const speeds = rows.map(({ speed_rpm }) => speed_rpm);
  const step = speeds[1] - speeds[0];
  const places = [at_rpm, lands_from_rpm, lands_to_rpm, band.lands_from_rpm, band.lands_to_rpm].filter(
    (one) => one !== null,
  );
  const wide = BEYOND * step;
  const first = Math.max(
    speeds[0],
    speeds[0] + step * Math.floor((Math.min(...places) - wide - speeds[0]) / step),
  );
  const last = Math.min(
    speeds.at(-1),
    speeds[0] + step * Math.ceil((Math.max(...places) + wide - speeds[0]) / step),
  );
  return `${first}:${last}:${step}`;
}

const torqueAt = ({ rows }, speed) => rows.find((row) => row.speed_rpm === speed)?.torque_nm ?? null;
const off = (is, promised) => (is === null || promised === null ? null : Math.round(is - promised));

function checked(name, file, base, advice) {
  const { torque_nm, at_rpm, lands_from_rpm, lands_to_rpm } = advice.promises;
  const rpm = about(base, advice.promises);
  const after = swept(file, `${name}-${advice.for}`, advice.set, '--no-advice', '--rpm', rpm);
  const [was, is] = [torqueAt(base, at_rpm), torqueAt(after, at_rpm)];
  // An edge at which the speeds that were run end is not known.
  const edge = (end, isOpen) => (isOpen ? null : after.band[end]);
  const ends = [after.rows[0].speed_rpm, after.rows.at(-1).speed_rpm];
  const edges = [
    {
      promised: lands_from_rpm,
      is: edge('lands_from_rpm', after.band.lands_from_rpm === ends[0]),
      was: base.band.lands_from_rpm,
    },
    {
      promised: lands_to_rpm,
      is: edge('lands_to_rpm', after.band.lands_to_rpm === ends[1]),
      was: base.band.lands_to_rpm,
    },
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
