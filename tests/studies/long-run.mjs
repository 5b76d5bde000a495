/** A long run, what settled speeds are held against. */

import { buildEngine } from '../../dist/src/engine/build.js';
import { readCycle } from '../../dist/src/engine/read/read-cycle.js';
import { CycleRecorder } from '../../dist/src/engine/read/recorder.js';
import { marchCycle } from '../../dist/src/engine/run/cycle.js';
import { startFrom } from '../../dist/src/engine/run/state.js';

const LAST = 24;

export const mean = (values) => values.reduce((a, b) => a + b, 0) / values.length;

export function engineFrom(subject, rpm, state) {
  const engine = buildEngine(subject, rpm, subject.run.cell);
  startFrom(engine, state);
  return engine;
}

/**
 * Mean torque [Nm] and middle of the wave [degrees after exhaust opening] of the last 24 of so many cycles; `after` hears of each cycle
 * from the first on.
 */
export function longRun(engine, cycles, after = () => {}) {
  const recorder = new CycleRecorder(engine);
  const readings = [];
  for (let cycle = 1; cycle <= cycles; cycle++) {
    readings.push(readCycle(engine, recorder, marchCycle(engine, recorder)));
    after(cycle);
  }
  const end = readings.slice(-LAST);
  return {
    torque: mean(end.map(({ output }) => output.torque)),
    middle: mean(end.map(({ plugBack }) => plugBack.centroidDeg)),
  };
}
