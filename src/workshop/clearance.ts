/**
 * Marks that keep clear of lettering: each begins at an edge, and ends where the words begin. What is left of less than a
 * millimetre is not scribed.
 */

import { type Lettering, letteringBox, line, type Place, type Stroke } from './drawing.ts';

/** Left free round the words; shortest mark [mm]. */
const CLEAR = 0.6;
const LEAST = 1;
/** Places looked at along a mark. */
const STEPS = 40;

/** Straight marks shortened from their far end; other strokes as they are. */
export function clearOf(words: readonly Lettering[], marks: readonly Stroke[]): readonly Stroke[] {
  const boxes = words.map(letteringBox);
  const covered = ([x, y]: Place): boolean =>
    boxes.some(
      ({ left, right, bottom, top }) =>
        x > left - CLEAR && x < right + CLEAR && y > bottom - CLEAR && y < top + CLEAR,
    );
  return marks.flatMap((mark): readonly Stroke[] => {
    if (mark.kind !== 'line') return [mark];
    const [[x0, y0], [x1, y1]] = [mark.from, mark.to];
    const at = (step: number): Place => [x0 + ((x1 - x0) * step) / STEPS, y0 + ((y1 - y0) * step) / STEPS];
    let free = 0;
    while (free < STEPS && !covered(at(free + 1))) free += 1;
    if (free === STEPS) return [mark];
    return (free / STEPS) * Math.hypot(x1 - x0, y1 - y0) < LEAST ? [] : [line(mark.from, at(free))];
  });
}
