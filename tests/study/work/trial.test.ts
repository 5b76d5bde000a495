/**
 * Ring: identity. A trial on cells so coarse that it takes a second: what it tells is its own runs, held against the row of the
 * sweep that it is given; what gains nothing is not followed; and it counts what it spends.
 */

import { expect, test } from 'vitest';
import { loadCase } from '../../../src/case/load.ts';
import { landing } from '../../../src/findings/landing.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import { type Likeness, runLikeness, runTrial, type TrialJob } from '../../../src/study/work/trial.ts';
import { CASES } from '../../case/files.ts';

const CELL = 0.03;
const demo = (set: readonly string[] = []) =>
  loadCase(`${CASES}saltmarsh-125/draft-a.yaml`, { set: [...set] });
const base = demo();
const likeness = runLikeness({ base, rpm: 10_000, coarse: CELL, fine: CELL, edgeRpm: null }) as Likeness;
/** A sweep whose cells give 2 % more torque and a middle one degree later. */
const known: SweepRow = {
  ...likeness.coarse,
  torque_nm: 1.02 * (likeness.coarse.torque_nm as number),
  plugback_centroid_deg: 1 + (likeness.coarse.plugback_centroid_deg as number),
};
const job = (candidates: TrialJob['candidates']): TrialJob => ({
  ...{ base, candidates, rpm: 10_500, known, knownEdge: null, edgeRpm: null, likeness },
  ...{ coarse: CELL, fine: CELL },
  ...{ landing: { from: 9200, to: 10_900 }, step: 250, screenWork: 300, edgeWork: 150 },
});
const header = (mm: number) => ({
  subject: demo([`pipe.sections.header.length=${mm} mm`]),
  ratio: 1,
  simple: true,
});

test('the pipe as it is tried against itself is the sweep, and ends where its wave ceases to land', () => {
  const { chosen, at, rows, work } = runTrial(job([{ subject: base, ratio: 1, simple: false }]));
  expect(chosen).toBe(0);
  const kinds = rows.map(landing);
  expect(kinds[0]).toBe('early');
  expect(kinds.at(-1)).toBe('late');
  expect(rows.map((row) => row.speed_rpm)).toEqual(
    rows.map((row) => row.speed_rpm).toSorted((a, b) => a - b),
  );
  expect(rows).toContain(at);
  expect(work).toBeGreaterThan(0);
  const here = { rpm: known.speed_rpm, edgeWork: 1 };
  const { at: shorter } = runTrial({ ...job([header(191)]), ...here });
  const same = runTrial({ ...job([{ subject: base, ratio: 1, simple: false }]), ...here }).at;
  // Cycles differ by less than a half per cent.
  expect(Math.abs((same?.torque_nm ?? 0) / (known.torque_nm as number) - 1)).toBeLessThan(0.005);
  expect(Math.abs((same?.plugback_centroid_deg ?? 0) - (known.plugback_centroid_deg as number))).toBeLessThan(
    0.5,
  );
  // A shorter header brings the wave sooner.
  expect((same?.plugback_centroid_deg ?? 0) - (shorter?.plugback_centroid_deg ?? 0)).toBeGreaterThan(1);
});

test('of several only what gains is followed', () => {
  const lost = runTrial(job([header(300), header(320)]));
  expect(lost).toMatchObject({ chosen: null, at: null, rows: [] });
  expect(lost.work).toBeGreaterThan(0);
  expect(runTrial({ ...job([header(320), header(185)]), edgeWork: 1 }).chosen).toBe(1);
});

test('edges cost no more than they may, but for the run that passes the limit', () => {
  const poor = runTrial({ ...job([header(191)]), edgeWork: 1 });
  expect(poor.rows.length).toBeLessThanOrEqual(2);
});
