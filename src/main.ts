#!/usr/bin/env node
/** The command line: one line per verb. A verb's file is loaded only when it runs. */

import { runProgram, wired } from './commands/frame/program.ts';
import * as verbs from './commands/frame/verbs.ts';

await runProgram(
  [
    wired(verbs.fresh, () => import('./commands/new.ts')),
    wired(verbs.check, () => import('./commands/check.ts')),
    wired(verbs.keys, () => import('./commands/keys.ts')),
    wired(verbs.sweep, () => import('./commands/sweep.ts')),
    wired(verbs.board, () => import('./commands/board.ts')),
    wired(verbs.compare, () => import('./commands/compare.ts')),
    wired(verbs.map, () => import('./commands/map.ts')),
    wired(verbs.aim, () => import('./commands/aim.ts')),
    wired(verbs.reconcile, () => import('./commands/reconcile.ts')),
    wired(verbs.overnight, () => import('./commands/overnight.ts')),
    wired(verbs.lend, () => import('./commands/lend.ts')),
    wired(verbs.unroll, () => import('./commands/unroll.ts')),
    wired(verbs.pulse, () => import('./commands/pulse.ts')),
    wired(verbs.verify, () => import('./commands/verify.ts')),
  ],
  process.argv.slice(2),
);
