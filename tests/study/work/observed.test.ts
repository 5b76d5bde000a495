/** Ring: identity. What gauges would show is what the record of the same speed holds; fields at hand give the same engine. */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../../src/case/load.ts';
import { runSpeed } from '../../../src/engine/run/run-speed.ts';
import { exhaustSections } from '../../../src/pipe/exhaust.ts';
import { stagesOf } from '../../../src/pipe/places.ts';
import { runObserved, TRACE_STEP_DEG } from '../../../src/study/work/observed.ts';
import { withRun } from '../../../src/study/work/run-settings.ts';
import { CASES } from '../../case/files.ts';

const subject = withRun(loadCase(`${CASES}saltmarsh-125/draft-a.yaml`), { cell: 20e-3 });
const rpm = 9500;
const { record } = runSpeed({ subject, rpm, start: null });
const flange = subject.engine.passage.length;
const [header] = stagesOf(exhaustSections(subject), 'header');
const middle = (header!.start + header!.end) / 2 - flange;
const watched = {
  rpm,
  pressures: ['port', 'cylinder', 'crankcase', middle] as const,
  gas: [middle],
  walls: [middle],
};
const [observed] = runObserved({ subject, speeds: [watched], starts: [null], mostCycles: 60 });

describe('gauges', () => {
  test('show pressures of the record on even angles from top dead centre on', () => {
    expect(observed!.pressures.map((turn) => turn.length)).toEqual([180, 180, 180, 180]);
    const { angleDeg, portPressure, crankcasePressure } = record.traces;
    for (const deg of [90, 178, 264, 310]) {
      const at = angleDeg.reduce(
        (best, one, k) => (Math.abs(one - deg) < Math.abs(angleDeg[best]! - deg) ? k : best),
        0,
      );
      // A trace has a value every half degree; a pressure moves by some per cent from one to the next at most.
      expect(Math.abs(observed!.pressures[0]![deg / TRACE_STEP_DEG]! / portPressure[at]! - 1)).toBeLessThan(
        0.03,
      );
      expect(
        Math.abs(observed!.pressures[2]![deg / TRACE_STEP_DEG]! / crankcasePressure[at]! - 1),
      ).toBeLessThan(0.03);
    }
  });

  test('in the header show what the wave diagram has in the cell about it', () => {
    const { positions, angleDeg, pressure } = record.diagram;
    const cell = positions.findIndex((x) => x > flange + middle);
    const [below, above] = [cell - 1, cell].map((k) =>
      angleDeg.map((_, row) => pressure[row * positions.length + k]!),
    );
    const highest = Math.max(...observed!.pressures[3]!);
    expect(highest).toBeGreaterThan(0.98 * Math.min(Math.max(...below!), Math.max(...above!)));
    expect(highest).toBeLessThan(1.001 * Math.max(...below!, ...above!));
  });

  test('show the temperatures that the row has of the header', () => {
    const { header_gas_temperature_k: gas, header_wall_temperature_k: wall } = observed!.row!;
    // The row takes the nearest cell, a gauge lies between two.
    expect(Math.abs(observed!.gas[0]! - gas!)).toBeLessThan(8);
    expect(Math.abs(observed!.walls[0]! - wall!)).toBeLessThan(8);
  });
});

test('fields that were kept give the same engine in fewer cycles', () => {
  const [again] = runObserved({ subject, speeds: [watched], starts: [observed!.state], mostCycles: 60 });
  expect(again!.row!.cycles).toBeLessThanOrEqual(observed!.row!.cycles);
  expect(Math.abs(again!.row!.torque_nm! / observed!.row!.torque_nm! - 1)).toBeLessThan(0.008);
});
