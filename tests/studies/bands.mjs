/**
 * How well few members tell what many do: percentiles of the first 64 members, and of every other 64, against those of 1024, at the middle
 * one of a case's speeds, for torque, power and the middle of the wave. A miss is told in the width from the 5th to the 95th
 * percentile of all. Each case is kept as it is done (`--anew` forgets them), and the members of one that is broken off are in its journal:
 * `npm run study:bands -- --members 256 --cell 20mm` for a small form, which is not kept.
 */

import { existsSync, mkdirSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { caseOf, openFile } from '../../dist/src/case/load.js';
import { columnBand, memberBands } from '../../dist/src/findings/member-bands.js';
import { computedMembers } from '../../dist/src/study/ensemble/computed-members.js';
import { planEnsemble } from '../../dist/src/study/ensemble/plan-ensemble.js';
import { openPool } from '../../dist/src/study/work/pool.js';
import { flag, folderOf, keep, readJson, root } from './keep.mjs';

const words = process.argv.slice(2);
const FEW = 64;
const members = Number(flag('--members', '1024'));
const cell = Number.parseFloat(flag('--cell', '10mm')) / 1000;
const isWhole = members === 1024 && cell === 0.01 && !words.includes('--case');
const CASES =
  flag('--case', '') !== ''
    ? [flag('--case', '')]
    : ['saltmarsh-125/draft-a.yaml', 'saltmarsh-125/draft-b.yaml', 'bench-250/case.yaml'];
const COLUMNS = ['torque_nm', 'power_kw', 'plugback_centroid_deg'];
const PERCENTILES = ['p05', 'p25', 'p50', 'p75', 'p95'];
const before = join(root, 'tests/studies/bands.json');
const fresh = { cell: `${1000 * cell}mm`, members, cases: {} };
const { cases } = isWhole && !words.includes('--anew') && existsSync(before) ? readJson(before) : fresh;

/** Largest miss of a column's percentiles, and each of them, in widths. */
function missesOf(some, all, speeds, name) {
  const [few] = columnBand(memberBands(some, speeds), name);
  const [many] = columnBand(memberBands(all, speeds), name);
  const width = many.p95 - many.p05;
  const each = Object.fromEntries(
    PERCENTILES.map((one) => [one, Number(((few[one] - many[one]) / width).toFixed(4))]),
  );
  return {
    width: Number(width.toPrecision(5)),
    largest: Math.max(...Object.values(each).map(Math.abs)),
    each,
  };
}

async function studied(name, pool) {
  const opened = openFile(join(root, 'cases', name));
  const { speeds: swept } = caseOf(opened, []).run;
  const speeds = [swept[Math.floor(swept.length / 2)]];
  const { drafts } = planEnsemble([{ name, opened, set: [], speeds }], { count: members });
  const folder = folderOf('bands');
  mkdirSync(folder, { recursive: true });
  const say = (text) => console.error(text);
  const start = process.cpuUsage();
  const { sweeps } = await computedMembers(
    { kind: 'bands', name, program: 'study', cell, drafts },
    {
      pool,
      path: join(folder, `${name.replace(/\W/g, '-')}-${members}-${1000 * cell}.jsonl`),
      replace: true,
      signal: new AbortController().signal,
      message: say,
      warn: say,
      lenders: () => '',
      progress: () => ({ advance: () => {}, finish: () => {} }),
    },
  );
  const { user, system } = process.cpuUsage(start);
  const [all] = sweeps;
  const blocks = Array.from({ length: Math.floor(all.length / FEW) }, (_, k) =>
    all.slice(k * FEW, (k + 1) * FEW),
  );
  const columns = Object.fromEntries(
    COLUMNS.map((column) => {
      const of = blocks.map((block) => missesOf(block, all, speeds, column));
      const within = of.filter(({ largest }) => largest <= 0.1).length;
      return [
        column,
        {
          width: of[0].width,
          first: of[0].each,
          largest_of_first: of[0].largest,
          blocks: of.length,
          blocks_within_a_tenth: within,
        },
      ];
    }),
  );
  const { troubles } = memberBands(all, speeds);
  return {
    speed_rpm: speeds[0],
    inputs: drafts[0].inputs.length,
    troubles,
    columns,
    cpu_s: Math.round((user + system) / 1e6),
  };
}

const pool = openPool(availableParallelism());
try {
  for (const name of CASES) {
    if (cases[name] !== undefined) continue;
    cases[name] = await studied(name, pool);
    if (isWhole) keep('bands', { ...fresh, cases });
    else console.log(name, JSON.stringify(cases[name], null, 1));
  }
} finally {
  await pool.close();
}
