/**
 * Ring: robustness. Files spoilt at random, by characters and by lines, either load or are refused with a message that
 * names a place and holds no control character; nothing else is ever thrown. A fixed generator, so that a failure returns.
 */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadCase, loadPulse } from '../../src/case/load.ts';
import { CaseProblems, FileProblem } from '../../src/case/text/problem.ts';
import { CASES, DRAFTS, demo, edited, file } from './files.ts';

/** Lehmer's generator with the multiplier of Park and Miller (Communications of the ACM 31 (1988) 1192). */
function generator(start: number): (below: number) => number {
  let state = start;
  return (below) => {
    state = (state * 48271) % 2147483647;
    return state % below;
  };
}

const PIECES = [
  '',
  ' ',
  '\n',
  '\t',
  ':',
  ': ',
  '-',
  '- ',
  '{',
  '}',
  '[',
  ']',
  ',',
  '"',
  "'",
  '#',
  '&a',
  '*a',
  '!!x',
  '|',
  '>',
  '?',
  '%',
  '@',
  '`',
  '~',
  'mm',
  'deg',
  '0',
  '-1',
  '1e999',
  '.nan',
  'null',
  'true',
  '\u0000',
  '\u001b[2J',
  '\u202e',
  'é',
  '😀',
  '\ud800',
  '__proto__: 1',
  '<<: {}',
  '---',
] as const;

function spoilt(text: string, random: (below: number) => number): string {
  let out = text;
  for (let edits = 1 + random(3); edits > 0; edits--) {
    const at = random(out.length + 1);
    const piece = PIECES[random(PIECES.length)]!;
    const sort = random(4);
    if (sort === 0) out = out.slice(0, at) + piece + out.slice(at);
    else if (sort === 1) out = out.slice(0, at) + piece + out.slice(at + 1 + random(12));
    else {
      const lines = out.split('\n');
      const [a, b] = [random(lines.length), random(lines.length)];
      if (sort === 2) lines.splice(a, 1);
      else [lines[a], lines[b]] = [lines[b]!, lines[a]!];
      out = lines.join('\n');
    }
  }
  return out;
}

function verdict(load: () => unknown): 'loaded' | 'refused' {
  try {
    load();
    return 'loaded';
  } catch (error) {
    if (!(error instanceof CaseProblems) && !(error instanceof FileProblem)) throw error;
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that there are none is the claim.
    expect(error.message).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    if (error instanceof CaseProblems) expect(error.message).toMatch(/:\d+:\d+: .+\n +\d+ \|.*\n +\| *\^/);
    return 'refused';
  }
}

test('spoilt engine, pipe and case files', () => {
  const random = generator(20260131);
  const counts = { loaded: 0, refused: 0 };
  const names = ['engine.yaml', 'pipe-a.yaml', 'draft-a.yaml'] as const;
  for (let round = 0; round < 450; round++) {
    const draft = edited({});
    const name = names[round % 3]!;
    file(name, spoilt(demo(name), random));
    counts[verdict(() => loadCase(draft))] += 1;
  }
  // Most spoilt files are refused, some spoil only a comment: both have to occur for the test to say anything.
  expect(counts.refused).toBeGreaterThan(150);
  expect(counts.loaded).toBeGreaterThan(15);
});

test('spoilt pulse files and overrides', () => {
  const random = generator(7);
  const text = readFileSync(join(CASES, 'pulse/vessel-chamber.yaml'), 'utf8');
  const set = 'engine.exhaust.windows.main.chamfer={height: 0.6 mm, depth: 0.4 mm}';
  const counts = { loaded: 0, refused: 0 };
  for (let round = 0; round < 200; round++) {
    counts[verdict(() => loadPulse(file('p.yaml', spoilt(text, random))))] += 1;
    const argument = spoilt(set, random);
    counts[verdict(() => loadCase(join(DRAFTS, 'saltmarsh-125/draft-a.yaml'), { set: [argument] }))] += 1;
  }
  expect(counts.refused).toBeGreaterThan(150);
  expect(counts.loaded).toBeGreaterThan(15);
});

test('very deep and very wide files', () => {
  expect(verdict(() => loadPulse(file('deep.yaml', `kind: pulse\nsections: ${'['.repeat(20000)}`)))).toBe(
    'refused',
  );
  expect(
    verdict(() =>
      loadPulse(file('deep.yaml', `kind: pulse\nsections: ${'['.repeat(3000)}${']'.repeat(3000)}`)),
    ),
  ).toBe('refused');
  expect(
    verdict(() =>
      loadPulse(
        file(
          'wide.yaml',
          `kind: pulse\nuntil: 1 ms\nsections: [${'{ length: 1 mm, diameter: 1 mm }, '.repeat(5000)}]`,
        ),
      ),
    ),
  ).toBe('refused');
});
