/** What-ifs are told apart by what was changed. */

import { expect, test } from 'vitest';
import { whatIfName } from '../../src/commands/frame/what-if-name.ts';

test.each([
  [[], 'draft A'],
  [['pipe.sections.header.length=260 mm'], 'draft A · header 260 mm'],
  [['pipe.wall.given=500 degC', 'engine.barrelLift = 0.5 mm'], 'draft A · wall 500 degC, barrelLift 0.5 mm'],
  [['engine.exhaust.windows.main.width += 2 mm'], 'draft A · exhaust main width +2 mm'],
  [['pipe.sections[0].length -= 5 mm'], 'draft A · 0 -5 mm'],
  [['pipe=runs/aimed/pipe.yaml'], 'draft A · pipe runs/aimed/pipe.yaml'],
])('%j', (set, name) => expect(whatIfName('draft A', set)).toBe(name));
