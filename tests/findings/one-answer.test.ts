/**
 * Ring: identity. Every verb is asked for the same quantity of the same rows and gives the same number: whether the wave
 * lands and where, the band of nine tenths, the mean over a range, the lead of the middle. The rows are made up so that the
 * answers differ as soon as one verb goes by the computed speeds only, by the peak, or by the window without the share.
 */

import { describe, expect, test } from 'vitest';
import { safetyOf } from '../../src/findings/answers/aim-safety.ts';
import { compareAnswer } from '../../src/findings/answers/compare.ts';
import { mapAnswer } from '../../src/findings/answers/map.ts';
import { sweepAnswer } from '../../src/findings/answers/sweep.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { ScoreTerm, Study } from '../../src/model/study.ts';
import { BAND, judge } from '../../src/study/aim/objective.ts';
import { aimPageResult } from '../../src/study/aim/report.ts';
import { Tally } from '../../src/study/overnight/tally.ts';
import { scoreOf } from '../../src/study/work/score.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const TARGET = 10_000;
const base = syntheticSweep().rows[0] as SweepRow;

/** Speeds a step of 250 rpm apart; the band's edges lie between them, and at 10 500 rpm the middle is in time but not half of the wave. */
const rows: readonly SweepRow[] = [14, 17.5, 19, 20, 19.7, 17.6, 12, 9].map((torque, k) => {
  const speed_rpm = 9250 + 250 * k;
  const middle = 242 + 6 * k;
  return {
    ...base,
    speed_rpm,
    settled: true,
    torque_nm: torque,
    power_kw: (torque * speed_rpm * Math.PI) / 30_000,
    plugback_peak_deg: middle - 9,
    plugback_lead_deg: base.exhaust_closes_deg - middle + 9,
    plugback_centroid_deg: middle,
    plugback_share_before_closing: k >= 5 ? 0.48 : 0.9 - 0.05 * k,
  };
});

const compared = compareAnswer([{ name: 'one', rows }], TARGET, { from: TARGET - BAND, to: TARGET + BAND });
const [draft] = compared.drafts;
const swept = sweepAnswer(rows, TARGET);
const mapped = mapAnswer(
  rows.map((row) => ({ durationDeg: 194, row })),
  { targetSpeed: TARGET, drawnDurationDeg: 194, roofTravel: () => 0 },
);
const judged = judge({ ok: true, rows }, { target: TARGET, unit: 20 });
const safety = safetyOf({ targetSpeed: TARGET, after: { rows }, start: null, sensitivities: [] });
const score = (term: ScoreTerm): number | null => {
  const one = scoreOf([term], rows);
  return one.ok ? one.score : null;
};
function tallied(): readonly (number | null)[] {
  const terms: ScoreTerm[] = [{ kind: 'averageTorque', from: TARGET - BAND, to: TARGET + BAND, weight: 1 }];
  const tally = new Tally({ score: terms } as unknown as Study, 1, TARGET);
  tally.take(0, { ok: true, rows }, false);
  return [...tally.values(0), tally.score(0)];
}

describe('of the same rows, the same', () => {
  test('speeds at which the wave lands: sweep, compare, map', () => {
    const lands = [{ from: 9500, to: 10_250 }];
    expect(swept.lands).toEqual(lands);
    expect(mapped?.landsRpm).toEqual(lands);
    expect({ from: draft?.summary.usefulFrom, to: draft?.summary.usefulTo }).toEqual(lands[0]);
  });

  test('verdict at a speed: sweep, compare, map, aim and its history', () => {
    expect(swept.target?.landing).toBe('lands');
    expect(compared.target?.landings).toEqual([{ name: 'one', landing: 'lands' }]);
    expect(mapped?.landsDeg).toEqual([{ from: 194, to: 194 }]);
    expect(judged?.lands).toBe(true);
    // At 10 500 rpm the middle lies in the window, and less than half of the wave is in time.
    const late = judge({ ok: true, rows }, { target: 10_500, unit: 20 });
    expect(late).toMatchObject({ outsideDeg: 0, lands: false });
    expect(sweepAnswer(rows, 10_500).target?.landing).toBe('late');
    const history = [{ evaluation: 1, judged: late, point: [] }];
    expect(historyOf(history)).toMatchObject([{ lands: false }]);
  });

  test('band of nine tenths: sweep, compare, aim, overnight', () => {
    // 18 Nm between 17.5 and 19, and between 19.7 and 17.6.
    const [from, to] = [9500 + (250 * 0.5) / 1.5, 10_250 + (250 * 1.7) / 2.1];
    expect(swept.broad?.band.from).toBeCloseTo(from, 9);
    expect(swept.broad?.band.to).toBeCloseTo(to, 9);
    const width = (swept.broad?.band.to ?? 0) - (swept.broad?.band.from ?? 0);
    expect(draft?.summary.torqueBand).toBe(width);
    expect(score({ kind: 'bandWidth', of: 'torque', share: 0.9, weight: 1 })).toBe(width);
    // The target is the speed of best torque, so the aimed pipe's band is that too.
    expect(safety?.held).toEqual(swept.broad?.band);
  });

  test('mean over a range: compare, aim, overnight', () => {
    const mean = (17.5 / 2 + 19 + 20 + 19.7 + 17.6 / 2) / 4;
    expect(draft?.summary.averageTorque).toBeCloseTo(mean, 12);
    expect(judged?.torque).toBe(draft?.summary.averageTorque);
    expect(tallied().at(-1)).toBe(draft?.summary.averageTorque);
  });

  test('lead of the middle: compare, aim, map, overnight', () => {
    const lead = base.exhaust_closes_deg - (242 + 18);
    expect(draft?.summary.middleLeadAtTarget).toBe(lead);
    expect(judged?.middleLeadDeg).toBe(lead);
    expect(tallied()[0]).toBe(lead);
    // The map tells where it crosses nought: at 277 degrees, five sixths of the way from 272 to 278.
    expect(mapped?.meetsRpm[0]).toBeCloseTo(10_500 + (250 * 5) / 6, 9);
  });

  test('best torque and where: sweep, compare, map, overnight', () => {
    expect(swept.torque?.speed_rpm).toBe(TARGET);
    expect(draft?.summary).toMatchObject({ peakTorque: 20, peakTorqueSpeed: TARGET });
    expect(mapped?.drawnBest).toEqual({ speedRpm: TARGET, torque: 20 });
    expect(tallied()[1]).toBe(20);
  });
});

function historyOf(history: readonly unknown[]): readonly unknown[] {
  const pipe = {
    pipe: { name: 'p', sections: [], wall: { by: 'given', at: [] } },
    rows: [],
    judged,
    rules: [],
  };
  const wish = {
    subject: {
      name: 's',
      engine: { passage: { length: 0 }, fuel: { equivalenceRatio: 1.1 } },
      pipe: pipe.pipe,
      run: { cell: 0.01 },
    },
    target: TARGET,
  };
  const result = {
    given: pipe,
    start: pipe,
    steps: [],
    after: pipe,
    changes: [],
    sensitivities: [],
    history,
    limits: [],
  };
  return aimPageResult(wish as never, result as never, { program: '', name: 's', changed: [], files: [] })
    .history;
}
