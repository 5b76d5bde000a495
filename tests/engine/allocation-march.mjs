// Marches the demo engine with the kernel named, built program, as a cycle does, a recorder at its side, and prints the bytes of heap that a step
// uses and that stay after it.

import { CLOCK } from '../../dist/solver/index.js';
import { loadCase } from '../../dist/src/case/load.js';
import { buildEngine } from '../../dist/src/engine/build.js';
import { CycleRecorder } from '../../dist/src/engine/read/recorder.js';
import { startCold } from '../../dist/src/engine/run/state.js';
import { heapOfSteps } from '../solver/heap-of-steps.mjs';

const SPEED = 10_000;
const subject = loadCase(new URL('../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname, {
  set: [`run.kernel=${process.argv[2]}`],
});
const engine = buildEngine(subject, SPEED, 5e-3);
startCold(engine);
const { network } = engine;
const recorder = new CycleRecorder(engine);
const turn = 60 / SPEED;
let end = 0;
const march = (steps) => {
  for (let step = 0; step < steps; step++) {
    if (network.clock[CLOCK.time] >= end) {
      recorder.begin(6 * SPEED * network.clock[CLOCK.time]);
      end = network.clock[CLOCK.time] + turn;
    }
    network.advance();
    recorder.note(network.clock);
  }
};
network.clock[CLOCK.limit] = 1;
console.log(JSON.stringify(heapOfSteps(march)));
