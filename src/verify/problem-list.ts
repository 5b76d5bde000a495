/** All problems in the order in which they are shown. */

import { areaStepProblems } from './problems/area-steps.ts';
import { balanceProblems } from './problems/balances.ts';
import { chamberProblems } from './problems/chamber.ts';
import { coneProblems } from './problems/cones.ts';
import { gasProblems } from './problems/gas.ts';
import { longDuctProblems } from './problems/long-duct.ts';
import { nozzleProblems } from './problems/nozzle.ts';
import { rarefactionProblems } from './problems/rarefaction.ts';
import { riemannProblems } from './problems/riemann.ts';
import { smoothTubeProblems } from './problems/smooth-tube.ts';
import { steepeningProblems } from './problems/steepening.ts';
import { vesselProblems } from './problems/vessel.ts';
import { waveProblems } from './problems/waves.ts';
import type { Problem } from './rig/problem.ts';

export const problems: readonly Problem[] = [
  ...riemannProblems,
  ...waveProblems,
  ...steepeningProblems,
  ...rarefactionProblems,
  ...smoothTubeProblems,
  ...coneProblems,
  ...chamberProblems,
  ...nozzleProblems,
  ...areaStepProblems,
  ...longDuctProblems,
  ...vesselProblems,
  ...gasProblems,
  ...balanceProblems,
];
