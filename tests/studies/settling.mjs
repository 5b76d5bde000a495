/**
 * How far a settled speed of an example is from where a long run ends: every speed from its own fields on coarse cells, these found
 * cold or from the neighbour's there, and from the neighbour's fields on the same cells after nine cycles. The mean of the last
 * 24 of 64 cycles (`--cycles 160` where an engine creeps) against what `settle` reports.
 */

import { loadCase } from '../../dist/src/case/load.js';
import { buildEngine } from '../../dist/src/engine/build.js';
import { readCycle } from '../../dist/src/engine/read/read-cycle.js';
import { CycleRecorder } from '../../dist/src/engine/read/recorder.js';
import { marchCycle } from '../../dist/src/engine/run/cycle.js';
import { coarseState } from '../../dist/src/engine/run/run-speed.js';
import { settle } from '../../dist/src/engine/run/settle.js';
import { FROM_COARSE, USUAL } from '../../dist/src/engine/run/settle-limits.js';
import { startFrom, takeState } from '../../dist/src/engine/run/state.js';
import { cell, flag, keep, root } from './keep.mjs';

const CYCLES = Number(flag('--cycles', '64'));
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

function compared(rpm, from, { start, strictness, long }) {
  const { verdict, cycles, window } = settle(engineFrom(rpm, start), strictness, CYCLES);
  const torque = mean(window.map(({ reading }) => reading.output.torque));
  const middle = mean(window.map(({ reading }) => reading.plugBack.centroidDeg));
  return {
    rpm,
    from,
    verdict,
    cycles,
    torquePercent: 100 * (torque / long.torque - 1),
    middleDeg: middle - long.middle,
  };
}

let coarse = null;
let near = null;
const results = speeds.flatMap((rpm) => {
  const cold = coarseState(subject, rpm);
  const chained = coarse === null ? cold : coarseState(subject, rpm, { from: coarse });
  const long = longRun(rpm, chained);
  const starts = [
    ['cold', { start: cold, strictness: FROM_COARSE, long }],
    ...(coarse === null ? [] : [['coarse neighbour', { start: chained, strictness: FROM_COARSE, long }]]),
    ...(near === null ? [] : [['neighbour', { start: near, strictness: USUAL, long }]]),
  ];
  coarse = chained;
  near = long.state;
  return starts.map(([from, how]) => compared(rpm, from, how));
});
const worst = (name) => Math.max(...results.map((one) => Math.abs(one[name])));
keep(`settling-${file.split('/').join('-')}`, {
  worst: { torquePercent: worst('torquePercent'), middleDeg: worst('middleDeg') },
  results,
});
