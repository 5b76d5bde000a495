/** What tests need beyond Node. What is not there is skipped, but where `CI` is set: there all have to run. */

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromiumPath } from '../plots/chromium.mjs';

const must = process.env.CI !== undefined && process.env.CI !== '';

export const hasBrowser = must || existsSync(chromiumPath);
export const hasRedis = must || spawnSync('redis-server', ['--version']).status === 0;

/** A line for each that is not there, with what to do about it. */
export const missing: readonly string[] = [
  ...(hasBrowser
    ? []
    : [`No Chromium at ${chromiumPath}: tests in a browser are skipped. Install chromium or set CHROMIUM.`]),
  ...(hasRedis ? [] : ['No redis-server: tests of queues are skipped. Install redis-server.']),
];
