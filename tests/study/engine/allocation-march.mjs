// Marches the demo engine, built program, and prints the bytes of heap that a step uses and that stay after it.

import { loadCase } from '../../../dist/src/case/load.js';
import { buildEngine } from '../../../dist/src/study/engine/build.js';
import { startCold } from '../../../dist/src/study/engine/state.js';
import { heapOfSteps } from '../../solver/heap-of-steps.mjs';

const subject = loadCase(new URL('../../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname);
const engine = buildEngine(subject, 10_000, 5e-3);
startCold(engine);
console.log(JSON.stringify(heapOfSteps(engine.network)));
