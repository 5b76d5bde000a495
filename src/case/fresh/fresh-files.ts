/** The three files of a first case, as text: they read and run as they are. */

import type { Known } from '../../model/known-engine.ts';
import { dimensionsOf } from './dimensions.ts';
import { engineText } from './engine-text.ts';
import { line, quotedText } from './lines.ts';
import { pipeText } from './pipe-text.ts';

export interface FreshFiles {
  readonly 'case.yaml': string;
  readonly 'engine.yaml': string;
  readonly 'pipe.yaml': string;
}

export function freshFiles(known: Known): FreshFiles {
  const sizes = dimensionsOf(known);
  return {
    'case.yaml': caseText(known),
    'engine.yaml': engineText(sizes),
    'pipe.yaml': pipeText(sizes),
  };
}

/** How many values of a file are marked as assumed. */
export function assumedIn(text: string): number {
  return text.match(/assumed/g)?.length ?? 0;
}

const STEP = 250;

function caseText({ name, rpm }: Known): string {
  const round = (speed: number): number => STEP * Math.round(speed / STEP);
  const from = Math.max(STEP, round(0.75 * rpm));
  const to = Math.max(from + STEP, round(1.25 * rpm));
  return `${[
    '# An engine with a pipe, and the speeds to run. More keys: echocone keys case.',
    'kind: case',
    `name: ${quotedText(name)}`,
    line('engine: engine.yaml', 'path from this file'),
    'pipe: pipe.yaml',
    'run:',
    line(
      `  speeds: { from: ${from} rpm, to: ${to} rpm, step: ${STEP} rpm }`,
      'a quarter either side',
      'usual',
    ),
    line(`  targetSpeed: ${rpm} rpm`, 'the speed the pipe is meant for'),
  ].join('\n')}\n`;
}
