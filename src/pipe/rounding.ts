/**
 * A pipe as it is cut: lengths and diameters in whole millimetres, but for the flange's diameter, which is the engine's.
 * Rounded to the nearest, or all lengths down or up, for where a constraint does not let the nearest pass.
 */

import type { Pipe } from '../model/pipe.ts';
import type { Section } from '../model/section.ts';
import { withWallOf } from './shape.ts';

export type Rounding = 'nearest' | 'down' | 'up';

const ways = { nearest: Math.round, down: Math.floor, up: Math.ceil } as const;

export function roundedPipe(pipe: Pipe, way: Rounding): Pipe {
  const whole = (value: number, to: (mm: number) => number): number =>
    // Dividing is rounded correctly: 213 mm is the number that the file's "213 mm" is read as.
    Math.max(1, to(Number((1000 * value).toFixed(6)))) / 1000;
  const sections: Section[] = [];
  for (const [k, section] of pipe.sections.entries()) {
    const before = sections[k - 1]?.diameter[1];
    const joined = before !== undefined && !section.step;
    const left = joined ? before : k === 0 ? section.diameter[0] : whole(section.diameter[0], Math.round);
    const parallel = section.diameter[0] === section.diameter[1];
    const right = parallel ? left : whole(section.diameter[1], Math.round);
    sections.push({ ...section, length: whole(section.length, ways[way]), diameter: [left, right] });
  }
  return withWallOf(pipe, { ...pipe, sections });
}
