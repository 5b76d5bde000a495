/** Ring: identity. What a reconciliation says, from judgements as data. SYNTHETIC inputs. */

import { describe, expect, test } from 'vitest';
import { reconcilePage } from '../../plots/pages/reconcile-page.ts';
import { reconcileHeadline, reconcileLines, unexplainedText } from '../../plots/pages/reconcile-words.ts';
import { reconcileText } from '../../src/commands/words/reconcile-text.ts';
import { syntheticReconcile } from './synthetic-reconcile.ts';

const { answer } = syntheticReconcile();
const line = (label: string, of = answer): string =>
  reconcileLines(of).find((one) => one.label === label)?.text ?? '';

describe('what explains the measurements', () => {
  test('is said with what moved, by how many of its ranges, and what stayed', () => {
    expect(answer.verdict).toBe('explained');
    expect(reconcileHeadline(answer)).toMatch(
      /^Explained by inputs within their ranges, [\d.]+ measuring errors off before, [\d.]+ after$/,
    );
    expect(line('What moved')).toMatch(
      /^combustion\.completeness \(−\d\.\d\d of its range, which is \d+\u202f% of what it was\)/,
    );
    expect(line('What the data cannot tell')).toContain(
      '1 of 5 inputs are as uncertain as before: passage.wallTemperature',
    );
  });

  test('is known only together where more of one with more of another does as well', () => {
    expect(answer.tied[0]!.correlation).toBeGreaterThan(0.9);
    expect(line('Known only together')).toMatch(
      /combustion\.completeness and friction\.constant: more of the one with more of the other/,
    );
  });

  test('leaves something to measure next', () => {
    expect(line('What to measure next')).toMatch(/% of what is left/);
    expect(answer.next[0]!.share).toBeGreaterThan(0.9);
  });

  test('fits the terminal', () => {
    for (const text of reconcileText(answer).split('\n')) expect([...text].length).toBeLessThanOrEqual(80);
  });
});

test('a curve that nothing explains is said so, at its speeds, with what to look for', () => {
  const bent = syntheticReconcile(false, 1.4).answer;
  expect(bent.verdict).toBe('not explained');
  expect(reconcileHeadline(bent)).toMatch(/^No inputs within their ranges explain what was measured/);
  expect(unexplainedText(bent.fits[0]!)).toMatch(/not explained within the ranges at 8\u202f000, 9\u202f000/);
  expect(line('What to do', bent)).toMatch(/factor of the dynamometer/);
});

test('names on the page are text', () => {
  const page = reconcilePage(syntheticReconcile(true), { plotly: '', script: '' });
  expect(page).not.toMatch(/<img src=x|<script>alert/);
});
