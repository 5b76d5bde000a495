// How long one speed takes from a neighbour's settled field, on coarse cells: what an answer that follows a hand costs.

import { median } from './march-rate.mjs';

const CELL = 20e-3;
const SPEEDS = [9500, 9750, 10_000, 10_250, 10_500];
/** The first rounds warm the compiler up. */
const ROUNDS = { warm: 3, counted: 5 };

/** Median over five speeds of the demo of the time from a neighbour 250 rpm below to a settled row, without traces [ms]. */
export async function nextSpeedMs(caseFile) {
  const { loadCase } = await import('../../dist/src/case/load.js');
  const { runSpeed } = await import('../../dist/src/engine/run/run-speed.js');
  const loaded = loadCase(caseFile);
  const subject = { ...loaded, run: { ...loaded.run, cell: CELL } };
  const starts = SPEEDS.map((rpm) => runSpeed({ subject, rpm: rpm - 250, start: null, brief: true }).state);
  const times = [];
  for (let round = 0; round < ROUNDS.warm + ROUNDS.counted; round++) {
    for (const [k, rpm] of SPEEDS.entries()) {
      const begun = process.hrtime.bigint();
      runSpeed({ subject, rpm, start: starts[k], brief: true });
      if (round >= ROUNDS.warm) times.push(Number(process.hrtime.bigint() - begun) / 1e6);
    }
  }
  return median(times);
}
