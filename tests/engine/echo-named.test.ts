/**
 * Ring: regression. A hole that an echo makes is named on the first screen. The pipe is one of three states within 300 rpm: an
 * echo of the last cycle comes back while the transfers are open and ends the suction some fifty degrees early, until from
 * one speed on it joins the plug-back.
 *
 * Where that is hangs on losses: without mixing of the gas and with the scavenging of a three-part stream the echo is there at 8 350 and
 * 8 500 rpm and gone at 8 800; with the usual physics two steps of 150 rpm lower. What is asserted is that the echo is named where the
 * suction is short, with its angle, and not where it is long; the speeds are those of either physics.
 */

import { describe, expect, test } from 'vitest';
import { sweepText } from '../../plots/pages/sweep-words.ts';
import { loadCase } from '../../src/case/load.ts';
import { runSpeed } from '../../src/engine/run/run-speed.ts';
import type { EngineState } from '../../src/engine/run/state.ts';
import { spoilingOf } from '../../src/findings/answers/spoiling.ts';
import { sweepAnswer } from '../../src/findings/answers/sweep.ts';
import { holesOf } from '../../src/findings/answers/torque-holes.ts';
import type { SweepRow } from '../../src/findings/row.ts';

const file = new URL('../repro/empirical-8200.yaml', import.meta.url).pathname;

function rowsAt(speeds: readonly number[], set: readonly string[]): readonly SweepRow[] {
  const subject = loadCase(file, { set: ['run.cell=20mm', ...set] });
  let start: EngineState | null = null;
  return speeds.map((rpm) => {
    const { record, state } = runSpeed({ subject, rpm, start, brief: true });
    start = state;
    return record.row;
  });
}

const FORMER = [
  'run.mixing=0',
  'engine.scavenging.threeWay.displacement=0.7',
  'engine.combustion.residualAtDuration=none',
];

describe.each([
  { physics: 'without mixing', set: FORMER, named: [8350, 8500], gone: 8800 },
  { physics: 'as it is usual', set: [], named: [8050, 8200], gone: 8500 },
])('$physics', ({ set, named, gone }) => {
  const rows = rowsAt([...named, gone], set);

  test('the echo that ends the suction is named, with its angle while the transfers are open', () => {
    for (const row of rows.slice(0, 2)) {
      const found = spoilingOf(row);
      expect(found?.effect).toBe('ends');
      expect(['plug-back', 'after plug-back', 'last cycle']).toContain(found?.source);
      expect(found?.deg).toBeGreaterThan(row.transfers_open_deg);
      expect(found?.deg).toBeLessThan(row.transfers_close_deg);
      expect(row.suction_length_deg).toBeLessThan(55);
    }
  });

  test('it is gone where the suction is long again', () => {
    const [last] = rows.slice(-1);
    expect(last && spoilingOf(last)).toBeNull();
    expect(last?.suction_length_deg).toBeGreaterThan(70);
  });

  test('it is the reason of the weak side of the curve, on the first screen', () => {
    const low = holesOf(rows).find(({ reason }) => reason.kind === 'spoiled');
    expect(low?.rpm).toBe(named[1]);
    const { lines } = sweepText(sweepAnswer(rows, null));
    const text = lines.find(({ label }) => label === 'In the curve')?.text;
    expect(text).toMatch(
      /echo of .* is back at 1\d\d°, while the transfers are open, and ends the suction early/,
    );
  });
});
