/** Ring: identity. Which cells a study runs on: what was asked for, what the case states, and 10 mm where neither says so. */

import { expect, test } from 'vitest';
import { loadCase } from '../../../src/case/load.ts';
import { studyCell } from '../../../src/study/work/study-cell.ts';

const file = new URL('../../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname;

test('asked for, stated, or 10 mm', () => {
  expect(studyCell(loadCase(file))).toBe(0.01);
  expect(studyCell(loadCase(file), 0.004)).toBe(0.004);
  const stated = loadCase(file, { set: ['run.cell=7 mm'] });
  expect(studyCell(stated)).toBeCloseTo(0.007, 12);
  expect(studyCell(stated, 0.02)).toBe(0.02);
});
