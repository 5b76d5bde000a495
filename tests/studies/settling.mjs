/**
 * How far a settled speed of an example is from where a long run ends: every speed from its own fields on coarse cells, these found
 * cold or from the neighbour's there, and from the neighbour's fields on the same cells after nine cycles. The mean of the last
 * 24 of 64 cycles (`--cycles 160` where an engine creeps) against what `settle` reports.
 */

import { loadCase } from '../../dist/src/case/load.js';
import { coarseState } from '../../dist/src/engine/run/run-speed.js';
import { settle } from '../../dist/src/engine/run/settle.js';
import { FROM_COARSE, USUAL } from '../../dist/src/engine/run/settle-limits.js';
import { takeState } from '../../dist/src/engine/run/state.js';
import { cell, flag, keep, root } from './keep.mjs';
import { engineFrom, longRun, mean } from './long-run.mjs';

const CYCLES = Number(flag('--cycles', '64'));
const NEIGHBOUR = 9;
const file = flag('--case', 'saltmarsh-125/draft-a');
const subject = loadCase(`${root}cases/${file}.yaml`, { set: [`run.cell=${cell}`] });
const wanted = flag('--rpm', '').split(',').filter(Boolean).map(Number);
const speeds = wanted.length > 0 ? wanted : subject.run.speeds;

const engineAt = (rpm, state) => engineFrom(subject, rpm, state);

/** A long run, with the state for the neighbour. */
function longRunOf(rpm, start) {
  const engine = engineAt(rpm, start);
  let state = null;
  const long = longRun(engine, CYCLES, (cycle) => {
    if (cycle === NEIGHBOUR) state = takeState(engine);
  });
  return { ...long, state };
}

function compared(rpm, from, { start, strictness, long }) {
  const { verdict, cycles, window } = settle(engineAt(rpm, start), strictness, CYCLES);
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
  const long = longRunOf(rpm, chained);
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
