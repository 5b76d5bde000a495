/**
 * Every change that a sweep advises, re-run as a user would by `--set`, against what it promised. Bounds: torque where it is
 * meant to help at most 1 % below before; promised torque within 2 %, promised edges within 150 rpm; a band that was to move
 * moves by 0.7 to 1.4 of what was promised. `--only NAME` takes one engine; `--cell 5mm` is the usual mesh.
 */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { studyEngines } from './engines/make.mjs';
import { echocone, flag, folderOf, keep, readJson, root } from './keep.mjs';

const cell = flag('--cell', '5mm');
const only = flag('--only', null);
const kernel = ['--set', `run.kernel=${flag('--kernel', 'two-lane')}`];
const written = folderOf('engines');
mkdirSync(written, { recursive: true });
const shipped = [
  'saltmarsh-125/draft-a',
  'saltmarsh-125/draft-b',
  'saltmarsh-125/draft-c',
  'bench-50/case',
  'bench-250/case',
];
const cases = [
  ...shipped.map((path) => ({ name: path.replace('/', '-'), file: join(root, 'cases', `${path}.yaml`) })),
  ...studyEngines.map(({ name, text }) => {
    const file = join(written, `${name}.yaml`);
    writeFileSync(file, text);
    return { name, file };
  }),
].filter(({ name }) => only === null || name.includes(only));

function swept(file, name, set, ...more) {
  const out = folderOf(name);
  const changes = set.flatMap((text) => ['--set', text]);
  const seconds = echocone(
    'sweep',
    file,
    '--cell',
    cell,
    '--out',
    out,
    '--overwrite',
    '--quiet',
    ...kernel,
    ...changes,
    ...more,
  );
  return { ...readJson(join(out, 'sweep.json')), seconds };
}

const torqueAt = ({ rows }, speed) => rows.find((row) => row.speed_rpm === speed)?.torque_nm ?? null;
const off = (is, promised) => (is === null || promised === null ? null : Math.round(is - promised));

function checked(name, file, base, advice, index) {
  const after = swept(file, `${name}-${advice.for}-${index}`, advice.set, '--no-advice');
  const { torque_nm, at_rpm, lands_from_rpm, lands_to_rpm } = advice.promises;
  const [was, is] = [torqueAt(base, at_rpm), torqueAt(after, at_rpm)];
  const edges = [
    { promised: lands_from_rpm, is: after.band.lands_from_rpm, was: base.band.lands_from_rpm },
    { promised: lands_to_rpm, is: after.band.lands_to_rpm, was: base.band.lands_to_rpm },
  ];
  const moved = edges
    .filter((edge) => edge.promised !== null && edge.is !== null && edge.was !== null)
    .map((edge) => (edge.is - edge.was) / (edge.promised - edge.was));
  const gainPercent = is === null || was === null ? null : 100 * (is / was - 1);
  const torqueOffPercent = is === null ? null : 100 * (is / torque_nm - 1);
  const edgesOff = edges.map((edge) => off(edge.is, edge.promised));
  const isMove = advice.for === 'lower' || advice.for === 'higher';
  const failed = [
    gainPercent === null || gainPercent < -1 ? 'torque lost' : '',
    torqueOffPercent === null || Math.abs(torqueOffPercent) > 2 ? 'torque promised' : '',
    edgesOff.some((by) => by !== null && Math.abs(by) > 150) ? 'edges promised' : '',
    isMove && moved.some((ratio) => ratio < 0.7 || ratio > 1.4) ? 'move' : '',
  ].filter((one) => one !== '');
  return {
    for: advice.for,
    set: advice.set,
    cell: advice.cell,
    at_rpm,
    was,
    promised: torque_nm,
    is,
    gainPercent,
    torqueOffPercent,
    edgesOff,
    moved,
    failed,
  };
}

const results = cases.map(({ name, file }) => {
  const plain = swept(file, `${name}-plain`, [], '--no-advice');
  const base = swept(file, name, []);
  const advice = base.advice.map((one, index) => checked(name, file, base, one, index));
  const { unadvised, band } = base;
  return {
    name,
    band,
    secondsOver: base.seconds / plain.seconds - 1,
    advice,
    unadvised: unadvised.map(({ for: purpose, says }) => `${purpose}: ${says}`),
  };
});
const all = results.flatMap(({ advice }) => advice);
keep('advice', {
  cell,
  advised: all.length,
  failed: all.filter(({ failed }) => failed.length > 0).length,
  results,
});
