/**
 * How far a settled speed of an example is from where a long run ends: every speed from a cold start and from its neighbour's
 * state after nine cycles, 64 cycles each; the mean of the last 24 against what `settle` reports.
 */

import { loadCase } from '../../dist/src/case/load.js';
import { buildEngine } from '../../dist/src/engine/build.js';
import { readCycle } from '../../dist/src/engine/read/read-cycle.js';
import { CycleRecorder } from '../../dist/src/engine/read/recorder.js';
import { marchCycle } from '../../dist/src/engine/run/cycle.js';
import { coarseState } from '../../dist/src/engine/run/run-speed.js';
import { settle } from '../../dist/src/engine/run/settle.js';
import { USUAL } from '../../dist/src/engine/run/settle-limits.js';
import { startFrom, takeState } from '../../dist/src/engine/run/state.js';
import { cell, flag, keep, root } from './keep.mjs';

const CYCLES = 64;
const LAST = 24;
const NEIGHBOUR = 9;
const file = flag('--case', 'saltmarsh-125/draft-a');
const subject = loadCase(`${root}cases/${file}.yaml`, { set: [`run.cell=${cell}`] });
const wanted = flag('--rpm', '').split(',').filter(Boolean).map(Number);
const speeds = wanted.length > 0 ? wanted : subject.run.speeds;
const mean = (values) => values.reduce((a, b) => a + b, 0) / values.length;

function engineFrom(rpm, state) {
  const engine = buildEngine(subject, rpm, subject.run.cell);
  startFrom(engine, state);
  return engine;
}

/** Mean torque and middle of the wave at the end of a long run, and the state for the neighbour. */
function longRun(rpm, start) {
  const engine = engineFrom(rpm, start);
  const recorder = new CycleRecorder(engine);
  const readings = [];
  let state = null;
  for (let cycle = 1; cycle <= CYCLES; cycle++) {
    readings.push(readCycle(engine, recorder, marchCycle(engine, recorder)));
    if (cycle === NEIGHBOUR) state = takeState(engine);
  }
  const end = readings.slice(-LAST);
  return {
    torque: mean(end.map((r) => r.output.torque)),
    middle: mean(end.map((r) => r.plugBack.centroidDeg)),
    state,
  };
}

function compared(rpm, from, start) {
  const long = longRun(rpm, start);
  const { verdict, cycles, window } = settle(engineFrom(rpm, start), USUAL, 64);
  const torque = mean(window.map(({ reading }) => reading.output.torque));
  const middle = mean(window.map(({ reading }) => reading.plugBack.centroidDeg));
  const result = {
    rpm,
    from,
    verdict,
    cycles,
    torquePercent: 100 * (torque / long.torque - 1),
    middleDeg: middle - long.middle,
  };
  return { result, state: long.state };
}

let near = null;
const results = speeds.flatMap((rpm) => {
  const cold = compared(rpm, 'cold', coarseState(subject, rpm));
  const next = near === null ? null : compared(rpm, 'neighbour', near);
  near = (next ?? cold).state;
  return next === null ? [cold.result] : [cold.result, next.result];
});
const worst = (name) => Math.max(...results.map((one) => Math.abs(one[name])));
keep(`settling-${file.split('/').join('-')}`, {
  worst: { torquePercent: worst('torquePercent'), middleDeg: worst('middleDeg') },
  results,
});
