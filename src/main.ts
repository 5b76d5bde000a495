#!/usr/bin/env node
/** The command line: one line per verb. A verb's file is loaded only when it runs. */

import { runProgram, type WiredVerb } from './commands/frame/program.ts';

const wired: readonly WiredVerb[] = [];

await runProgram(wired, process.argv.slice(2));
